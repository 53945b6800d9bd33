// What the back answers from: texts, the index of the workspace, studies, and the one thread that they share.

import type { ModuleCompiler } from '../../cycles/compiled-module';
import type { SliceParser } from '../../syntax/slice-parser';
import type { Files } from './files';
import type { IndexKeeper } from './index-keeper';
import type { Scheduler } from './scheduler';
import type { Studies } from './studies';

export interface Answering {
  readonly files: Files;
  readonly keeper: IndexKeeper;
  readonly parser: Promise<SliceParser>;
  readonly compile: ModuleCompiler;
  readonly scheduler: Scheduler;
  readonly studies: Studies;
  /** Says that answers about these documents differ from now on. */
  changed(documents: readonly string[]): void;
}

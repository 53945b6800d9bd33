// What a feature may ask of the workspace beyond the study of its document, and what it is given.

import type { ScannedName, ScannedUnit } from '../../report/scan-file';
import type { Reading } from '../../syntax/read';
import type { SourceFile } from '../../text/source';

export type Further =
  /** The files that hold units of these names, the nearest of each. */
  | { readonly kind: 'units'; readonly names: readonly string[] }
  /** The files in which a word stands and which use one of these units, or use what uses one; those of the study too. */
  | { readonly kind: 'uses'; readonly word: string; readonly of: readonly string[] }
  /** The texts in which a word stands. */
  | { readonly kind: 'texts'; readonly word: string };

export interface WorkspaceView {
  /** By URI, then in source order; the document's own too. */
  readonly units: readonly { readonly uri: string; readonly unit: ScannedUnit }[];
  readonly macros: readonly { readonly uri: string; readonly macro: ScannedName }[];
  /** Each with whatever its file needs. */
  readonly readings: readonly { readonly uri: string; readonly reading: Reading }[];
  readonly texts: readonly SourceFile[];
  /** Whether every file of the workspace that matters is among them. */
  readonly isWhole: boolean;
}

export const noWorkspace: WorkspaceView = { units: [], macros: [], readings: [], texts: [], isWhole: true };

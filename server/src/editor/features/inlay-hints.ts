// A few quiet words behind the declaration of a register: the clock and edge it samples at, how its rate is divided, its
// stage. One hint per declared name; what differs from instance to instance of its module is only said to differ.

import type { InlayHint, Range } from 'vscode-languageserver';
import { visibleText } from '../../drawing/visible-text';
import { type DeclaredRegisters, declaredRegisters } from '../../report/declared-registers';
import type { Study } from '../../report/study';
import { isBefore, rangeOf } from './positions';

/** Which of them are wanted. */
export interface HintKinds {
  readonly clock: boolean;
  readonly ratio: boolean;
  readonly stage: boolean;
}

export function* inlayHints(study: Study, path: string, range: Range, kinds: HintKinds): Generator<void, InlayHint[]> {
  const { registers } = yield* study.early.report();
  return declaredRegisters(registers, path).flatMap((declared) => hintOf(declared, range, kinds));
}

function hintOf(declared: DeclaredRegisters, range: Range, kinds: HintKinds): readonly InlayHint[] {
  const position = rangeOf(declared.span).end;
  if (isBefore(position, range.start) || isBefore(range.end, position)) return [];
  const wanted = (['clock', 'ratio', 'stage'] as const)
    .filter((kind) => kinds[kind])
    .map((kind) => declared.short[kind]);
  const said = wanted
    .filter((words) => words !== null && words !== '')
    .map((words) => shortened(visibleText(words ?? '')));
  const label = [...said, ...(wanted.includes(null) ? ['differs by instance'] : [])].join(' · ');
  return label === ''
    ? []
    : [{ position, label, paddingLeft: true, tooltip: declared.lines.map(visibleText).join('\n') }];
}

/** A hint never pushes the code it stands in out of sight. */
const longest = 40;

function shortened(words: string): string {
  const characters = [...words];
  return characters.length <= longest ? words : `${characters.slice(0, longest - 1).join('')}…`;
}

// What a selection grows to from each of several carets. From the text alone.

import type { Position, SelectionRange } from 'vscode-languageserver';
import { selectionStretches } from '../../report/selection-stretches';
import type { Study } from '../../report/study';
import { textOf } from './documents';
import { offsetAt, rangeBetween } from './positions';

export function* selectionRanges(
  study: Study,
  path: string,
  positions: readonly Position[],
): Generator<void, SelectionRange[]> {
  const text = textOf(study, path);
  const ranges: SelectionRange[] = [];
  for (const position of positions) {
    const stretches = selectionStretches(text, offsetAt(text, position));
    const outermostFirst = [...stretches].reverse();
    const innermost = outermostFirst.reduce<SelectionRange | null>(
      (parent, { end, start }) => ({ range: rangeBetween(text, start, end), ...(parent === null ? {} : { parent }) }),
      null,
    );
    ranges.push(innermost ?? { range: { start: position, end: position } });
    yield;
  }
  return ranges;
}

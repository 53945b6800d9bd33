// Which lines the picture has, from top to bottom, and where: a header per group, its traces indented by stage, bits of
// unfolded vectors, and readings under the bits that they read.

import type { PreviewData } from '../report/preview-data';
import { margins, type View } from './view';

export type Row =
  | { readonly kind: 'group'; readonly group: number; readonly top: number; readonly height: number }
  | { readonly kind: 'trace'; readonly trace: number; readonly top: number; readonly height: number }
  | { readonly kind: 'reading'; readonly reading: number; readonly top: number; readonly height: number };

const heights = { group: 26, trace: 30, reading: 34 } as const;

type RowContent =
  | { readonly kind: 'group'; readonly group: number }
  | { readonly kind: 'trace'; readonly trace: number }
  | { readonly kind: 'reading'; readonly reading: number };

export function rowsOf(data: PreviewData, view: View): readonly Row[] {
  let top: number = margins.top;
  return data.groups
    .flatMap((_, group) => groupRows(data, view, group))
    .map((content) => {
      const row = { ...content, top, height: heights[content.kind] };
      top += row.height;
      return row;
    });
}

export function totalHeight(rows: readonly Row[]): number {
  const last = rows.at(-1);
  return (last === undefined ? margins.top : last.top + last.height) + 8;
}

function groupRows(data: PreviewData, view: View, group: number): RowContent[] {
  const rows = data.traces.flatMap((trace, index): RowContent[] => {
    if (trace.group !== group || !isShown(data, view, index)) return [];
    const readings = data.readings.flatMap(({ after, group: of }, reading): RowContent[] =>
      of === group && lastShown(data, view, after) === index ? [{ kind: 'reading', reading }] : [],
    );
    return [{ kind: 'trace', trace: index }, ...readings];
  });
  return rows.length === 0 ? [] : [{ kind: 'group', group }, ...rows];
}

/** A bit is shown where it stands alone or its vector is unfolded. */
function isShown({ traces }: PreviewData, view: View, index: number): boolean {
  const { parent } = traces[index];
  return parent === null || view.unfolded.has(parent);
}

/** The row that a reading follows: its last bit, or the folded vector that stands for it. */
function lastShown(data: PreviewData, view: View, index: number): number {
  return isShown(data, view, index) ? index : (data.traces[index].parent ?? index);
}

// Which lines the picture has, from top to bottom, and where: a header per group, its traces indented by stage, bits of
// unfolded vectors, readings under the bits that they read, and the sequence of a vector under the vector.

import type { Scene } from './scene';
import { axisHeight, type View } from './view';

export type Row = RowContent & {
  /** px from the top of the picture as it is scrolled. */
  readonly top: number;
  readonly height: number;
};

type RowContent =
  | { readonly kind: 'group'; readonly group: number }
  | { readonly kind: 'trace'; readonly trace: number }
  /** How the trace above would run, if what is asked were so. */
  | { readonly kind: 'otherwise'; readonly trace: number }
  | { readonly kind: 'reading'; readonly reading: number }
  /** What is said of a reading whose values already stand on its vector. */
  | { readonly kind: 'caption'; readonly reading: number };

/** Top and bottom of a wave, px. */
export interface Lane {
  readonly high: number;
  readonly low: number;
}

const heights = { group: 28, trace: 34, otherwise: 30, reading: 38, caption: 18 } as const;
const below = 10;

/** Every row, also those above and below what is seen. */
export function rowsOf(scene: Scene, view: View): readonly Row[] {
  let top = axisHeight - view.scroll;
  return scene.members
    .flatMap((traces, group) => groupRows(scene, view, { traces, group }))
    .map((content) => {
      const row = { ...content, top, height: heights[content.kind] };
      top += row.height;
      return row;
    });
}

/** px of all rows with the axis, however they are scrolled. */
export function totalHeight(rows: readonly Row[]): number {
  return rows.reduce((sum, { height }) => sum + height, axisHeight + below);
}

export function isSeen({ height, top }: Row, view: View): boolean {
  return top + height > axisHeight && top < view.height;
}

/** Above the wave there is room for marks. */
export function laneOf({ height, top }: Row): Lane {
  return { high: top + 12, low: top + height - 4 };
}

function groupRows(
  scene: Scene,
  view: View,
  { group, traces }: { readonly group: number; readonly traces: readonly number[] },
): readonly RowContent[] {
  const rows = traces.flatMap((trace) => traceRows(scene, view, trace));
  return rows.length === 0 ? [] : [{ kind: 'group', group }, ...rows];
}

function traceRows(scene: Scene, view: View, trace: number): readonly RowContent[] {
  const readings = scene.readings[trace].map((reading): RowContent => ({ kind: 'reading', reading }));
  // A reading keeps its place below the last of its bits also where that is folded away.
  if (!isShown(scene, view, trace)) return readings;
  const own = scene.ownReading[trace];
  const isSaid = own !== null && scene.data.readings[own].caption !== '';
  const isOtherwise = scene.otherwise[trace] !== null;
  return [
    { kind: 'trace', trace },
    ...(isOtherwise ? [{ kind: 'otherwise', trace } as const] : []),
    ...(isSaid ? [{ kind: 'caption', reading: own } as const] : []),
    ...readings,
  ];
}

/** A bit is shown where it stands alone or its vector is unfolded. */
function isShown({ data }: Scene, view: View, trace: number): boolean {
  const { parent } = data.traces[trace];
  return parent === null || view.unfolded.has(parent);
}

// The time axis, which stays above the rows, and the root edges of each group: faint lines through its traces, so that
// what follows an edge, and how late, is seen.

import { lastWhere } from './columns';
import { marginsOf } from './margins';
import type { Row } from './rows';
import type { Scene } from './scene';
import type { Shape } from './shape';
import { axisHeight, plotWidth, type View, xOf } from './view';
import { timeWords } from '../text/time-words';

/** Pixels between two instants of the axis, and between two root edges, at least. */
const leastDistance = { instants: 80, edges: 12 } as const;

export function drawAxis(view: View): readonly Shape[] {
  const y = axisHeight - 4;
  const ground = { x: 0, y: 0, width: view.width, height: axisHeight };
  const shapes: Shape[] = [
    { kind: 'box', role: 'background', filled: true, ...ground },
    {
      kind: 'path',
      role: 'muted',
      points: [marginsOf(view).left, y, xOf(view, view.to), y],
      weight: 'thin',
      dashed: false,
    },
  ];
  for (const time of instantsOf(view)) {
    const x = xOf(view, time);
    shapes.push(
      { kind: 'path', role: 'muted', points: [x, y - 5, x, y], weight: 'thin', dashed: false },
      { kind: 'text', role: 'muted', x, y: y - 9, anchor: 'middle', face: 'note', text: timeWords(time) },
    );
  }
  return shapes;
}

/** Through the rows of a group, as far as they are seen. */
export function drawRootEdges(scene: Scene, view: View, rows: readonly Row[]): readonly Shape[] {
  return extentsOf(scene, rows).flatMap(({ group, top, bottom }): Shape[] => {
    const { rootEdges } = scene.data.groups[group];
    const first = lastWhere(rootEdges.length, (index) => rootEdges[index] < view.from) + 1;
    const after = lastWhere(rootEdges.length, (index) => rootEdges[index] <= view.to) + 1;
    const ends = [Math.max(top, axisHeight), Math.min(bottom, view.height)];
    if (ends[0] >= ends[1] || (after - first) * leastDistance.edges > plotWidth(view)) return [];
    const points = rootEdges.slice(first, after).flatMap((edge) => {
      const x = xOf(view, edge);
      return [Number.NaN, Number.NaN, x, ends[0], x, ends[1]];
    });
    return [{ kind: 'path', role: 'grid', points, weight: 'thin', dashed: true }];
  });
}

/** Multiples of 1, 2 or 5 times a power of ten of ps. */
function instantsOf(view: View): readonly number[] {
  const least = ((view.to - view.from) * leastDistance.instants) / plotWidth(view);
  const power = 10 ** Math.floor(Math.log10(Math.max(least, 1)));
  const step = [1, 2, 5].map((factor) => factor * power).find((size) => size >= least) ?? 10 * power;
  const first = Math.ceil(view.from / step);
  const count = Math.max(0, Math.floor(view.to / step) - first + 1);
  return Array.from({ length: count }, (_, index) => (first + index) * step);
}

interface Extent {
  readonly group: number;
  readonly top: number;
  readonly bottom: number;
}

function extentsOf({ data }: Scene, rows: readonly Row[]): readonly Extent[] {
  const extents = new Map<number, Extent>();
  for (const row of rows) {
    if (row.kind !== 'trace') continue;
    const { group } = data.traces[row.trace];
    const bottom = row.top + row.height;
    extents.set(group, { group, top: extents.get(group)?.top ?? row.top, bottom });
  }
  return [...extents.values()];
}

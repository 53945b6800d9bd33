// The time axis: round instants, as many as have room, in the unit that reads best over the window.

import type { Shape } from './shape';
import { margins, plotWidth, type View, xOf } from './view';

const units: readonly { readonly name: string; readonly ps: number }[] = [
  { name: 's', ps: 1e12 },
  { name: 'ms', ps: 1e9 },
  { name: 'µs', ps: 1e6 },
  { name: 'ns', ps: 1e3 },
  { name: 'ps', ps: 1 },
];

export function drawAxis(view: View, height: number): readonly Shape[] {
  return instantsOf(view).flatMap((time): Shape[] => {
    const x = xOf(view, time);
    return [
      { kind: 'path', role: 'grid', points: [x, margins.top - 6, x, height], weight: 'thin', dashed: false },
      { kind: 'text', role: 'muted', x, y: 16, anchor: 'middle', face: 'note', text: timeText(time) },
    ];
  });
}

/** Multiples of 1, 2 or 5 times a power of ten, at least 80 px apart. */
function instantsOf(view: View): readonly number[] {
  const least = ((view.to - view.from) * 80) / plotWidth(view);
  const power = 10 ** Math.floor(Math.log10(Math.max(least, 1)));
  const step = Math.max(1, [1, 2, 5, 10].map((factor) => factor * power).find((one) => one >= least) ?? power);
  const first = Math.ceil(view.from / step);
  const count = Math.floor(view.to / step) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, index) => (first + index) * step);
}

/** Exact: the largest unit in which the time has at most three decimals. */
export function timeText(ps: number): string {
  const unit = units.find(({ ps: size }) => Math.abs(ps) >= size && Number.isInteger((ps / size) * 1000)) ?? units[4];
  return ps === 0 ? '0' : `${ps / unit.ps} ${unit.name}`;
}

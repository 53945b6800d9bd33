// Where one looks outlives the data: window, folds and focus go by name and time, whatever index they have next.
import { describe, expect, it } from 'vitest';
import { type Scene, sceneOf } from '../../server/src/drawing/scene';
import { openingView, type View } from '../../server/src/drawing/view';
import type { PreviewData } from '../../server/src/report/preview-data';
import { keptView, restoreView } from '../../webview/src/kept-view';
import { rippleOfTwo, toggles, traceOf } from '../drawing/previews';

const size = { width: 900, height: 400 };
const scene = sceneOf(rippleOfTwo());
const opening = openingView(scene.data, size);

/** As after a line was typed above everything: one trace more at the top, and a run that is longer. */
function edited(more: Partial<PreviewData> = {}): Scene {
  const { traces } = scene.data;
  const shifted = traces.map((trace) => ({ ...trace, parent: trace.parent === null ? null : trace.parent + 1 }));
  const added = traceOf('new', { changes: toggles([10, 20]) });
  return sceneOf({ ...scene.data, end: 600, traces: [added, ...shifted], readings: [], ...more });
}

function over(view: View, next: Scene): View {
  return restoreView(JSON.parse(JSON.stringify(keptView(scene, view))), next, size);
}

function focusName({ data }: Scene, { focus }: View): string | null {
  return focus === null
    ? null
    : `${data.traces[focus.trace].name} ${data.traces[focus.trace].changes.at[focus.change]}`;
}

describe('a view over an update', () => {
  it('comes back the same where nothing changed', () => {
    const view = {
      ...opening,
      from: 50,
      to: 150,
      scroll: 12,
      radix: 'binary',
      focus: { trace: 1, change: 1 },
    } as const;
    expect(over(view, scene)).toEqual(view);
  });

  it('keeps its window where the run grew, and the whole run whole', () => {
    expect(over({ ...opening, from: 50, to: 150 }, edited())).toMatchObject({ from: 50, to: 150 });
    expect(over(opening, edited())).toMatchObject({ from: 0, to: 600 });
  });

  it('keeps its length where the run became too short for its place', () => {
    expect(over({ ...opening, from: 200, to: 300 }, edited({ end: 150 }))).toMatchObject({ from: 50, to: 150 });
  });

  it('finds the focus by name and time', () => {
    const next = edited();
    expect(focusName(next, over({ ...opening, focus: { trace: 2, change: 0 } }, next))).toBe('q[1] 220');
    expect(over({ ...opening, focus: { trace: 3, change: -1 } }, next).focus).toEqual({ trace: 4, change: -1 });
  });

  it('goes to the edge before where the edge itself is gone, and lets go where the trace is', () => {
    const next = edited({ traces: [traceOf('clk', { changes: toggles([60, 130]) })] });
    expect(focusName(next, over({ ...opening, focus: { trace: 0, change: 2 } }, next))).toBe('clk 130');
    expect(over({ ...opening, focus: { trace: 3, change: 0 } }, next).focus).toBeNull();
  });

  it('keeps what was folded folded, and opens what is new as ever', () => {
    const folded = { ...opening, unfolded: new Set<number>() };
    const next = edited();
    expect([...over(folded, next).unfolded]).toEqual([]);
    expect([...over(opening, next).unfolded]).toEqual([2]);
    const bits = [traceOf('r[1]', { parent: 6 }), traceOf('r[0]', { parent: 6 })];
    const wider = edited({ traces: [...next.data.traces, traceOf('r[1:0]', { width: 2, start: '00' }), ...bits] });
    expect([...over(folded, wider).unfolded]).toEqual([6]);
  });
});

// What pixels can show of sorted changes: held against walking through all of them, and against the width of the picture.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lastAtOrBefore, spansIn, stretchesOf, type TimeWindow } from '../../server/src/drawing/columns';
import { timelineOf } from '../../server/src/drawing/timeline';

const instants = fc
  .uniqueArray(fc.integer({ min: 0, max: 2000 }), { maxLength: 200 })
  .map((all) => all.sort((a, b) => a - b));
const windows = fc
  .record({
    from: fc.integer({ min: 0, max: 1500 }),
    span: fc.integer({ min: 1, max: 900 }),
    columns: fc.integer({ min: 1, max: 300 }),
  })
  .map(({ columns, from, span }): TimeWindow => ({ from, to: from + span, columns }));

/** Columns of whole eighths of a ps, so that there are no two opinions on where one ends. */
const exactWindows = fc
  .record({
    from: fc.integer({ min: 0, max: 1500 }),
    eighths: fc.integer({ min: 1, max: 160 }),
    columns: fc.integer({ min: 1, max: 300 }),
  })
  .map(({ columns, eighths, from }): TimeWindow => ({ from, to: from + (columns * eighths) / 8, columns }));

/** Changes that come thick and pause. */
const crowds = fc
  .array(
    fc.record({ count: fc.integer({ min: 1, max: 150 }), step: fc.integer({ min: 1, max: 6 }), pause: fc.nat(60) }),
    {
      maxLength: 8,
    },
  )
  .map((bursts) => bursts.flatMap(({ count, pause, step }) => [pause, ...Array.from({ length: count }, () => step)]))
  .map((gaps) => {
    let time = 0;
    return gaps.map((gap) => {
      time += Math.max(1, gap);
      return time;
    });
  });

/** Of columns side by side that hold two changes or more each: the first change, the last, and the end in ps. */
function crowdsIn(at: readonly number[], window: TimeWindow): readonly (readonly number[])[] {
  const step = (window.to - window.from) / window.columns;
  const columns: number[][] = Array.from({ length: window.columns }, () => []);
  for (let index = changeAt(at, window.from) + 1; index < at.length && at[index] < window.to; index += 1) {
    columns[Math.floor((at[index] - window.from) / step)].push(index);
  }
  const found: number[][] = [];
  for (const [column, changes] of columns.entries()) {
    if (changes.length < 2) continue;
    const [begin, end] = [column, column + 1].map((each) => window.from + each * step);
    const before = found.at(-1);
    if (before?.[2] === begin) before.splice(1, 2, changes[changes.length - 1], end);
    else found.push([changes[0], changes[changes.length - 1], end]);
  }
  return found;
}

/** The change that gives the value at an instant, found by walking. */
function changeAt(at: readonly number[], instant: number): number {
  let found = -1;
  for (const [index, time] of at.entries()) if (time <= instant) found = index;
  return found;
}

describe('stretches of a trace', () => {
  it('cover the window without gap or overlap', () => {
    fc.assert(
      fc.property(instants, windows, (at, window) => {
        const stretches = stretchesOf(timelineOf(at), window);
        expect(stretches[0].from).toBe(window.from);
        expect(stretches[stretches.length - 1].to).toBe(window.to);
        for (const [index, { from, to }] of stretches.entries()) {
          expect(from).toBeLessThan(to);
          if (index > 0) expect(from).toBe(stretches[index - 1].to);
        }
      }),
    );
  });

  it('hold the value that walking finds, wherever they are not busy', () => {
    fc.assert(
      fc.property(instants, windows, (at, window) => {
        for (const { busy, change, from, to } of stretchesOf(timelineOf(at), window)) {
          if (busy) continue;
          for (const instant of [from, (from + to) / 2]) expect(change).toBe(changeAt(at, instant));
        }
      }),
    );
  });

  it('are busy where walking from column to column finds two changes or more side by side', () => {
    fc.assert(
      fc.property(fc.oneof(instants, crowds), exactWindows, (at, window) => {
        const busy = stretchesOf(timelineOf(at), window).filter((stretch) => stretch.busy);
        expect(busy.map(({ change, from, to }) => [at.indexOf(from), change, to])).toEqual(crowdsIn(at, window));
      }),
      { numRuns: 500 },
    );
  });

  it('of every change that has a column to itself begin exactly there', () => {
    const stretches = stretchesOf(timelineOf([100, 250, 400]), { from: 0, to: 500, columns: 500 });
    expect(stretches.map(({ change, from }) => [from, change])).toEqual([
      [0, -1],
      [100, 0],
      [250, 1],
      [400, 2],
    ]);
  });

  it('of a million changes are no more than the columns ask for', () => {
    const at = Float64Array.from({ length: 1_000_000 }, (_, index) => index);
    const columns = 1000;
    expect(stretchesOf(timelineOf(at), { from: 0, to: 1_000_000, columns }).length).toBeLessThanOrEqual(3 * columns);
    expect(stretchesOf(timelineOf(at), { from: 500_000, to: 500_010, columns }).every(({ busy }) => !busy)).toBe(true);
  });

  it('come to an end where a division falls just short of a column', () => {
    // In double precision these columns' ends compute to the very change that they should lie behind.
    for (const [from, to, columns, change] of [
      [0, 405_000, 1060, 20_250],
      [1, 1_000_000, 49, 142_858],
    ]) {
      const changes = stretchesOf(timelineOf([change, change + 1]), { from, to, columns }).map(
        (stretch) => stretch.change,
      );
      expect(changes).toEqual([-1, 1, 1]);
    }
  });
});

describe('spans of time', () => {
  const spans = instants.map((at) =>
    at.slice(0, -1).flatMap((from, index) => (index % 2 === 0 ? [{ from, to: at[index + 1] }] : [])),
  );

  it('all of the window are seen once, or counted', () => {
    fc.assert(
      fc.property(spans, windows, (all, window) => {
        const expected = all.filter(({ from, to }) => to >= window.from && from < window.to).length;
        const seen = spansIn(all, window);
        expect(seen.reduce((sum, { more }) => sum + 1 + more, 0)).toBe(expected);
        for (const { from, to } of seen) expect(from >= window.from && to <= window.to && from <= to).toBe(true);
      }),
    );
  });

  it('of a hundred thousand are no more than the columns', () => {
    const all = Array.from({ length: 100_000 }, (_, index) => ({ from: index * 10, to: index * 10 + 5 }));
    expect(spansIn(all, { from: 0, to: 1_000_000, columns: 700 }).length).toBeLessThanOrEqual(701);
  });
});

describe('the change in force', () => {
  it('is the last at or before an instant', () => {
    fc.assert(
      fc.property(instants, fc.integer({ min: -5, max: 2005 }), (at, instant) => {
        expect(lastAtOrBefore(at, instant)).toBe(changeAt(at, instant));
      }),
    );
  });
});

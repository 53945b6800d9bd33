// The end of a crowd of changes, held against walking through all of them.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { endOfCrowd, timelineOf } from '../../server/src/drawing/timeline';

describe('the end of a crowd', () => {
  it('is the first change from which the next but one is too far', () => {
    const gaps = fc.array(fc.oneof({ weight: 60, arbitrary: fc.integer({ min: 1, max: 4 }) }, fc.constant(9)), {
      minLength: 2,
      maxLength: 900,
    });
    fc.assert(
      fc.property(gaps, fc.nat(), fc.integer({ min: 1, max: 20 }), (steps, from, limit) => {
        let time = 0;
        const at = steps.map((step) => {
          time += step;
          return time;
        });
        const start = from % (at.length - 1);
        const walked = at.findIndex((instant, index) => index >= start && !(at[index + 2] - instant <= limit));
        expect(endOfCrowd(timelineOf(at), start, limit)).toBe(Math.min(walked, at.length - 2));
      }),
      { numRuns: 500 },
    );
  });

  it('of changes without a pause is the last but one', () => {
    for (const count of [2, 3, 63, 64, 65, 66, 67, 128, 130, 8_193, 100_000]) {
      const timeline = timelineOf(Float64Array.from({ length: count }, (_, index) => index));
      for (const start of [0, Math.floor(count / 2) - 1]) expect(endOfCrowd(timeline, start, 2)).toBe(count - 2);
    }
  });
});

// A stated delay set with a spread, from the project file of an example to the settling bands of its preview: the span
// from the earliest to the latest possible change after a root edge (definition 32; the sums are definition 20's, done by
// hand from the numbers of the file).
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { reportOf, studyOf, toEnd } from '../tools/report-of';

const folder = new URL('../../examples/ripple-with-spread/', import.meta.url);
const text = (name: string) => readFileSync(new URL(name, folder), 'utf8');
const files = [{ path: 'ripple-with-spread.v', text: text('ripple-with-spread.v') }];
const project = text('foretick.json');

async function bandsOf(name: string, options = { project }) {
  const { traces } = toEnd((await studyOf(files, options)).preview());
  return traces.find((trace) => trace.name === name)?.settling.map(({ from, to }) => [from / 1000, to / 1000]) ?? [];
}

describe('a delay set with a spread', () => {
  it('has a band around every change, wider from stage to stage', async () => {
    // step falls at 100, 200, 300 … ns. floor[0] rises 4 to 11 ns after the first, falls 5 to 14 ns after the second.
    expect((await bandsOf('floor[0]')).slice(0, 3)).toEqual([
      [104, 111],
      [205, 214],
      [304, 311],
    ]);
    // floor[1] follows floor[0]'s fall: rises 5 + 4 to 14 + 11 ns after the second edge, falls 10 to 28 after the fourth.
    expect((await bandsOf('floor[1]')).slice(0, 2)).toEqual([
      [209, 225],
      [410, 428],
    ]);
    // floor[2] has delays of its own, 6 to 20 ns, after two falls: 5 + 5 + 6 to 14 + 14 + 20.
    expect((await bandsOf('floor[2]')).slice(0, 1)).toEqual([[416, 448]]);
  });

  it('is drawn around the typical change', async () => {
    const { traces } = toEnd((await studyOf(files, { project })).preview());
    for (const { changes, settling } of traces.filter(({ kind }) => kind === 'register')) {
      expect(changes.at.length).toBeGreaterThan(0);
      for (const at of changes.at) expect(settling.some(({ from, to }) => from <= at && at <= to)).toBe(true);
    }
  });

  it('is told in the report', async () => {
    const { chains, delaySet } = await reportOf(files, { project });
    expect(delaySet).toMatchObject({ name: 'loose', spread: true, overrides: [{ name: 'floor[2]' }] });
    expect(chains[0].settle).toEqual({ min: 16_000, typ: 30_000, max: 48_000 });
  });

  it('and no band without one', async () => {
    const plain = JSON.stringify({ ...JSON.parse(project), delays: 'unit', overrides: {} });
    expect(await bandsOf('floor[2]', { project: plain })).toEqual([]);
  });
});

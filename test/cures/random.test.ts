// Cures on random ripple, gated and decoded designs: whatever is offered was proven, reads again without complaint, leaves
// neither the finding nor a new one, and does what it claims, here looked at apart from what proves it: both texts are run
// by the timed engine with random inputs, and read just before each edge of the clock.

import { describe, expect, it } from 'vitest';
import { reportOf, wavesOf } from '../tools/report-of';
import { type RandomDesign, decodedDesign, gatedDesign, rippleDesign } from './random-designs';
import { curesOf, type Tried } from './tried';

const seed = 20261125;
const designs = 12;

/** Long enough for every chain to come to rest between two edges. */
const period = 1_000_000;
const edges = 40;

interface Kind {
  readonly make: (seed: number) => RandomDesign;
  /** How many of the designs must have a cure that holds, at least: else the test looks at nothing. */
  readonly atLeast: number;
}

const kinds: Readonly<Record<string, Kind>> = {
  ripple: { make: rippleDesign, atLeast: 10 },
  gated: { make: gatedDesign, atLeast: 6 },
  decoded: { make: decodedDesign, atLeast: 5 },
};

describe.each(Object.entries(kinds))('%s', (_, { atLeast, make }) => {
  it(`${designs} designs from seed ${seed}`, { timeout: 120_000 }, async () => {
    let offered = 0;
    for (let index = 0; index < designs; index++) {
      const design = make(seed + index);
      const project = projectOf(design, seed + index);
      const { findings } = await reportOf([{ path: 'a.v', text: design.text }], { project });
      if (!findings.some(({ id }) => id === design.finding)) continue;
      const holding = (await curesOf(design.text, design.finding, project)).filter(({ cure }) => cure.proof.holds);
      offered += holding.length > 0 ? 1 : 0;
      for (const tried of holding) await expectAsClaimed(design, tried, project, seed + index);
    }
    expect(offered).toBeGreaterThanOrEqual(atLeast);
  });
});

async function expectAsClaimed(
  design: RandomDesign,
  { cure, text }: Tried,
  project: string,
  own: number,
): Promise<void> {
  const where = `seed ${own}: ${cure.title}\n${design.text}\n${text}`;
  const [before, after] = [
    await reportOf([{ path: 'a.v', text: design.text }], { project }),
    await reportOf([{ path: 'a.v', text }], { project }),
  ];
  expect(
    after.findings.filter(({ id }) => id === 'syntax' || id.startsWith('unresolved')),
    where,
  ).toEqual([]);
  const counted = (report: typeof before, id: string) => report.findings.filter((one) => one.id === id).length;
  expect(counted(after, design.finding), where).toBeLessThan(counted(before, design.finding));
  // Whoever samples what moves at the same edge is asked about and reads otherwise: the engine takes the text's own order.
  if (cure.asks.length > 0) return;
  const late = cure.title.endsWith('one period later') ? 1 : 0;
  expect(await readingsOf(text, design, project, late), where).toEqual(
    await readingsOf(design.text, design, project, 0, late),
  );
}

/** What the outputs read before each active edge; those that may come late from `first` on, the others to the same end. */
async function readingsOf(
  text: string,
  { edge, late, outputs }: RandomDesign,
  project: string,
  first: number,
  drop = 0,
): Promise<readonly string[]> {
  const wave = await wavesOf([{ path: 'a.v', text }], period * (edges + 1), { project });
  const at = (index: number) => (edge === 'rising' ? 0 : period / 2) + period / 2 + index * period - 1;
  const isLate = first + drop > 0;
  const lines: string[] = [];
  // The state at the start is not compared with what comes late: it has no edge behind it.
  for (let index = isLate ? 1 : 0; index < edges - 1; index++) {
    const read = (name: string) => {
      const shift = isLate && late.includes(name) ? first : 0;
      return `${name} ${wave(name).at(at(index + shift))}`;
    };
    lines.push(outputs.map(read).join(', '));
  }
  return lines;
}

/** Inputs move a quarter period after the inactive edge, as random levels; a reset is let go early and stays so. */
function projectOf({ edge, inputs }: RandomDesign, own: number): string {
  let state = own;
  const bit = () => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return (state >>> 16) & 1;
  };
  const inactive = edge === 'rising' ? period : period / 2;
  const levels = () => [
    { atPs: 0, value: String(bit()) },
    ...Array.from({ length: edges }, (_, index) => ({
      atPs: inactive + period / 4 + index * period,
      value: String(bit()),
    })),
  ];
  return JSON.stringify({
    clocks: { clk: { periodPs: period, highPs: period / 2, phasePs: period / 2 } },
    inputs: Object.fromEntries(inputs.map((name) => [name, { levels: levels() }])),
  });
}

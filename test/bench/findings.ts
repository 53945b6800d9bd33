// What findings cost: clock network, crossings and resets of growing netlists; glitches of a decoder of every value of a
// ripple counter, against one run through all its transitions. How long all findings of a text take stands at `report.ts`.

import { limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import { analyzeGlitches } from '../../server/src/hazards/glitches';
import type { Netlist } from '../../server/src/netlist/netlist';
import { driveOf } from '../../server/src/predict/drive-of';
import { predict } from '../../server/src/predict/predict';
import { predictWaves } from '../../server/src/predict/timed-engine';
import { nothingStated } from '../clocks/describe-clocks';
import { falling, flipFlops, toggleChain } from '../predict/predicted';
import { circuit } from '../tools/circuit';
import { toEnd } from '../tools/report-of';
import type { Claim } from './claim';
import { interleave, ms } from './interleave';

export function* benchFindings(): Generator<Claim> {
  yield* growth();
  yield decoder();
}

const sizes = [1_000, 10_000, 100_000] as const;

/** As much work a round for each: small ones are done several times over. */
function* growth(): Generator<Claim> {
  const [few, some, many] = sizes.map(mixedRegisters);
  const over = (netlist: Netlist, turns: number) => () => {
    for (let turn = 0; turn < turns; turn++) toEnd(findClocks(netlist, nothingStated));
  };
  const times = interleave(3, { few: over(few, 100), some: over(some, 10), many: over(many, 1) });
  console.log(
    `clock network, crossings, resets of 100,000 registers: 1,000 at a time ${ms(times.few)}, ` +
      `10,000 at a time ${ms(times.some)}, at once ${ms(times.many)}`,
  );
  yield {
    subject: 'clock network, crossings and resets, time per register',
    candidate: { name: 'of 100,000', value: times.many / 100, unit: 'us per register' },
    baseline: { name: 'of 1,000', value: times.few / 100, unit: 'us per register' },
    bound: 1.5,
  };
}

/**
 * Blocks of ten registers in two domains: a shared count with its reset, a divided clock, a crossing of two flip-flops
 * and a bare one, a gated register.
 */
function mixedRegisters(count: number): Netlist {
  const c = circuit();
  const [clk, other, rst, d] = ['clk', 'other', 'rst', 'd'].map((name) => c.input(name));
  const cleared = { asynchronous: [{ control: rst, value: c.constant('0'), active: 'high' as const }] };
  let before = d;
  for (let block = 0; block < count / 10; block++) {
    const name = (what: string): string => `${what}${block}`;
    const low = c.register(name('low'), { clock: clk, data: (q) => c.not(q), initial: '0', ...cleared });
    const high = c.register(name('high'), { clock: clk, data: (q) => c.xor(q, low), initial: '0', ...cleared });
    const half = c.register(name('half'), { clock: low, data: (q) => c.not(q), initial: '0' });
    const slow = c.register(name('slow'), { clock: low, data: half });
    const sent = c.register(name('sent'), { clock: clk, data: c.and(before, high) });
    const first = c.register(name('first'), { clock: other, data: sent });
    const second = c.register(name('second'), { clock: other, data: first });
    const bare = c.register(name('bare'), { clock: other, data: c.xor(sent, second) });
    const enable = c.register(name('enable'), { clock: clk, edge: 'falling', data: high });
    before = c.register(name('gated'), { clock: c.and(clk, enable), data: c.or(slow, low) });
    c.output(name('q'), c.and(bare, before));
  }
  return c.build();
}

/** Of so many stages: of 16 one run alone takes half an hour. */
const stages = 8;

function decoder(): Claim {
  const c = circuit();
  const q = toggleChain(c, c.input('clk'), falling(stages));
  for (let value = 0; value < 2 ** stages; value++) {
    c.output(`y${value}`, c.equal(q, c.constant(value.toString(2).padStart(stages, '0'))));
  }
  const netlist = c.build();
  const network = toEnd(findClocks(netlist, nothingStated));
  const drive = driveOf(netlist, network, { clocks: {}, resets: {}, inputs: {}, start: '0' });
  const predicted = { netlist, network, drive, delaySet: flipFlops(1_000), start: '0', limits: limitDefaults } as const;
  const prediction = toEnd(predict(predicted));
  const options = { strobes: [], static: [] };
  const until = drive.clocks[0].period * 2 ** stages;
  const times = interleave(5, {
    glitches: () => toEnd(analyzeGlitches({ netlist, network, prediction, limits: limitDefaults, options })),
    run: () => toEnd(predictWaves({ ...predicted, until })),
  });
  return {
    subject: `a decoder of every value of a ripple counter of ${stages} stages`,
    candidate: { name: 'glitches', value: times.glitches, unit: 'ms' },
    baseline: { name: 'one run through all transitions', value: times.run, unit: 'ms' },
    bound: 2,
  };
}

// Windows of growing circuits: random gates between flip-flops of one clock, a fifth of all nodes stored, every delay with
// a spread. Claimed: what a node costs does not grow with the circuit.

import { findClocks } from '../../server/src/clocks/find-clocks';
import { limitDefaults } from '../../server/src/budget';
import type { DelaySet } from '../../server/src/delays/delay-set';
import { predictWaves } from '../../server/src/predict/timed-engine';
import { findWindows } from '../../server/src/predict/windows';
import { nothingStated } from '../clocks/describe-clocks';
import { driveBy, finish, plainSet } from '../predict/timed';
import { circuit, type Wire } from '../tools/circuit';
import type { Claim } from './claim';
import { interleave } from './interleave';

export function* benchWindows(): Generator<Claim> {
  const [small, large] = [prepared(1_000), prepared(10_000)];
  // The small one ten times: as much work a round as the large one.
  const times = interleave(7, {
    small: () => {
      for (let turn = 0; turn < 10; turn++) small();
    },
    large,
  });
  yield {
    subject: `windows of random gates and flip-flops, ${edges} root edges, time per node`,
    candidate: { name: '10,000 nodes', value: times.large / 10, unit: 'us per node' },
    baseline: { name: '1,000 nodes', value: times.small / 10, unit: 'us per node' },
    bound: 1.5,
  };
}

const edges = 20;

function prepared(count: number): () => unknown {
  const netlist = randomGates(count);
  const network = finish(findClocks(netlist, nothingStated));
  const drive = driveBy(netlist, network, { clocks: { clk: { period: 200 } }, until: 0 });
  const run = { netlist, network, drive, delaySet: loose };
  const until = 200_000 * (edges / 2);
  const waves = finish(predictWaves({ ...run, until, limits: limitDefaults, start: '0' }));
  return () => finish(findWindows({ ...run, waves }));
}

const spread = { min: 800, typ: 1000, max: 1300 };
const both = { rise: spread, fall: spread };
const loose: DelaySet = {
  ...plainSet('loose', { register: 1 }),
  clockToQ: { first: both, next: null },
  logic: { gate: both, inverter: both, multiplexer: both },
};

/** Each gate hears nodes near it, so that depth stays alike however many there are. */
function randomGates(count: number) {
  const c = circuit();
  const clk = c.input('clk');
  const next = numbers(20_261_125);
  const pool: Wire[] = Array.from({ length: count / 5 }, (_, index) =>
    c.register(`r${index}`, {
      clock: clk,
      initial: String(next(2)),
      data: () => pool[pool.length - 1 - ((7 * index) % (count / 5))],
    }),
  );
  const registers = pool.length;
  const pick = (index: number): Wire =>
    pool[next(4) === 0 ? (index + next(40)) % registers : Math.max(0, pool.length - 1 - next(40))];
  for (let index = 0; pool.length < count; index++) {
    const [left, right, other] = [pick(index), pick(index), pick(index)];
    switch (next(5)) {
      case 0:
        pool.push(c.nand(left, right));
        break;
      case 1:
        pool.push(c.nor(left, right));
        break;
      case 2:
        pool.push(c.xor(left, right));
        break;
      case 3:
        pool.push(c.mux(left, right, other));
        break;
      default:
        pool.push(c.not(left));
    }
  }
  return c.build();
}

/** A linear congruential sequence (Numerical Recipes' constants): the same circuit on every machine. */
function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

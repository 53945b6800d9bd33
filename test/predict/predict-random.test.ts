// Random circuits predicted, against the plain oracle stepped along the same drive: every listed reading, and that the
// period which is claimed brings the readings round.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Bits, digitBits, toBigInt, toBinary } from '../../server/src/netlist/four-state';
import type { Netlist, Register } from '../../server/src/netlist/netlist';
import type { Drive } from '../../server/src/predict/drive';
import { createClockEdges } from '../../server/src/predict/drive-edges';
import { isHeard } from '../../server/src/predict/settled-drive';
import { planSettled } from '../../server/src/predict/settled-plan';
import { startBitsOf } from '../../server/src/predict/start-level';
import { predictionOf } from './predicted';
import { buildCircuit, recipes } from './random-circuit';
import { inputNode } from './settled-bench';
import { type Oracle, oracleOf } from './settled-oracle';

it('reads what the oracle reads, edge by edge, and comes round when it says', () => {
  let compared = 0;
  fc.assert(
    fc.property(recipes, (recipe) => {
      const netlist = buildCircuit(recipe);
      const { prediction } = predictionOf(netlist, { limits: { period: 300, states: 64 } });
      for (const count of prediction.counts) {
        // Chains hold several registers; the oracle is asked for one.
        if (count.chain !== null) continue;
        const register = netlist.registers[count.registers[0]];
        const listed = [...count.leadIn, ...count.values, ...count.values].slice(0, 60);
        const read = readings(netlist, prediction.drive, register, listed.length);
        if (count.period !== null) expect(read).toEqual(listed);
        else expect(read.slice(0, count.values.length)).toEqual(count.values.slice(0, read.length));
        compared += count.period === null ? 0 : 1;
      }
    }),
    { numRuns: 120 },
  );
  expect(compared).toBeGreaterThan(50);
});

/** After the last release of a reset that the register hears, then after each active edge of its clock. */
function readings(netlist: Netlist, drive: Drive, register: Register, count: number): string[] {
  const [clock] = drive.clocks;
  const clk = inputNode(netlist, clock.name);
  const edges = createClockEdges(clock);
  const reset = (active: boolean) =>
    drive.resets.map(
      (each) => [inputNode(netlist, each.name), digitBits((each.active === 'high') === active ? '1' : '0')] as const,
    );
  const held = drive.inputs.map(({ name, value }) => [inputNode(netlist, name), value] as const);
  const oracle = oracleOf(
    netlist,
    [...held, ...reset(true), [clk, digitBits(edges.startLevel === 1 ? '1' : '0')]],
    startOf,
  );
  const tick = (): 0 | 1 => {
    const { level } = edges;
    oracle.instant([[clk, digitBits(level === 1 ? '1' : '0')]]);
    edges.advance();
    return level;
  };
  const cone = planSettled(netlist, [register.node]);
  if (drive.resets.some(({ bit }) => isHeard(cone, bit))) {
    while (edges.time < drive.resets[0].release) tick();
    oracle.instant(reset(false));
  }
  const read = [textOf(oracle, register)];
  while (read.length < count) if ((tick() === 1) === (register.edge === 'rising')) read.push(textOf(oracle, register));
  return read;
}

function startOf(register: Register): Bits {
  return startBitsOf({ memories: [] }, register, '0');
}

function textOf(oracle: Oracle, { node }: Register): string {
  const value = oracle.value(node);
  return toBigInt(value)?.toString() ?? toBinary(value).replaceAll('z', 'x');
}

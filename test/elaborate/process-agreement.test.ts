// Random process bodies, read twice: followed statement by statement with known values, as an initial block is (IEEE
// 1364-2005 to the letter), and followed symbolically into a netlist, which is then evaluated with the same values. With
// everything known the two must agree: as logic, with defaults before the body, as registers, which hold, and as latches.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Bits, digitAt, fromNumber, toBinary } from '../../server/src/netlist/four-state';
import { concat } from '../../server/src/netlist/four-state-parts';
import type { Bit, Netlist } from '../../server/src/netlist/netlist';
import { netlistOf } from '../tools/elaborated';
import { checkNodes, valuesOf } from './evaluate-netlist';
import { driverOf, signalOf } from './netlist-text';
import { bodiesThat, declarations, inputs, inputWidths, variableWidths } from './random-process';

const bodies = bodiesThat({ reads: 'anything' });
const seed = 20260117;
const numRuns = 150;

const inputValues = fc.record(Object.fromEntries(inputs.map((name) => [name, fc.nat(2 ** inputWidths[name] - 1)])));
const startValues = fc.record(
  Object.fromEntries(Object.entries(variableWidths).map(([name, width]) => [name, fc.nat(2 ** width - 1)])),
);

type Numbers = Readonly<Record<string, number>>;

const ports = inputs.map((name) => `input [${inputWidths[name] - 1}:0] ${name}`).join(', ');
const assignAll = (values: Numbers, operator: string) =>
  Object.entries(values)
    .map(([name, value]) => `${name} ${operator} ${value};`)
    .join(' ');

/** What the variables come to, by the run of an initial block. */
async function byRun(body: string, given: Numbers, start: Numbers): Promise<Record<string, string>> {
  const regs = inputs.map((name) => `reg [${inputWidths[name] - 1}:0] ${name};`).join(' ');
  const { netlist, complaints } = await netlistOf(
    `module m; ${regs} ${declarations} initial begin ${assignAll(given, '=')} ${assignAll(start, '=')} ${body} end endmodule`,
  );
  expect(complaints).toEqual([]);
  return Object.fromEntries(Object.keys(variableWidths).map((name) => [name, driverOf(netlist, name)]));
}

function inputBits(given: Numbers): Record<string, Bits> {
  return Object.fromEntries(inputs.map((name) => [name, fromNumber(inputWidths[name], given[name])]));
}

test(`as logic, with defaults (seed ${seed}, ${numRuns} bodies)`, { timeout: 60_000 }, async () => {
  await fc.assert(
    fc.asyncProperty(bodies, inputValues, startValues, async (body, given, start) => {
      const { n, ...blocking } = start;
      const defaults = `${assignAll(blocking, '=')} n <= ${n};`;
      const { netlist, complaints } = await netlistOf(
        `module m(${ports}); ${declarations} always @* begin ${defaults} ${body} end endmodule`,
      );
      expect(complaints).toEqual([]);
      checkNodes(netlist);
      expect(netlist.latches).toEqual([]);
      const value = valuesOf(netlist, { inputs: inputBits(given) });
      const found = Object.fromEntries(
        Object.keys(variableWidths).map((name) => [name, toBinary(value(signalOf(netlist, name).node))]),
      );
      expect(found).toEqual(await byRun(body, given, start));
    }),
    { seed, numRuns },
  );
});

test(`as registers, which hold (seed ${seed}, ${numRuns} bodies)`, { timeout: 60_000 }, async () => {
  await fc.assert(
    fc.asyncProperty(bodies, inputValues, startValues, async (body, given, start) => {
      const reads = `assign all = {${Object.keys(variableWidths).join(', ')}};`;
      const { netlist, complaints } = await netlistOf(
        `module m(input clk, ${ports}, output [39:0] all); ${declarations} ${reads} initial begin ${assignAll(start, '=')} end
         always @(posedge clk) begin ${body} end endmodule`,
      );
      expect(complaints).toEqual([]);
      checkNodes(netlist);
      const found = Object.fromEntries(
        Object.keys(variableWidths).map((name) => [name, toBinary(nextOf(netlist, name, inputBits(given), start))]),
      );
      expect(found).toEqual(await byRun(body, given, start));
    }),
    { seed, numRuns },
  );
});

test(`as latches, where a path leaves bits alone (seed ${seed}, ${numRuns} bodies)`, { timeout: 60_000 }, async () => {
  await fc.assert(
    fc.asyncProperty(bodiesThat({ reads: 'inputs' }), inputValues, startValues, async (body, given, start) => {
      const { netlist, complaints } = await netlistOf(
        `module m(${ports}); ${declarations} initial begin ${assignAll(start, '=')} end always @* begin ${body} end endmodule`,
      );
      expect(complaints).toEqual([]);
      checkNodes(netlist);
      const found = Object.fromEntries(
        Object.keys(variableWidths).map((name) => [name, toBinary(latchedOf(netlist, name, inputBits(given)))]),
      );
      expect(found).toEqual(await byRun(body, given, start));
    }),
    { seed, numRuns },
  );
});

/** What a signal holds after the next edge: its registers' data, and its start value where it has none. */
function nextOf(netlist: Netlist, name: string, given: Record<string, Bits>, start: Numbers): Bits {
  const signal = signalOf(netlist, name);
  const own = netlist.registers
    .filter((register) => register.signal === signal.id)
    .sort((left, right) => right.low - left.low);
  if (own.length === 0) return fromNumber(signal.width, start[name]);
  const value = valuesOf(netlist, { inputs: given });
  const parts: Bits[] = [];
  let above = signal.width;
  const kept = (until: number) => {
    if (above > until) parts.push(fromNumber(above - until, Math.floor(start[name] / 2 ** until)));
    above = until;
  };
  for (const { low, width, data } of own) {
    kept(low + width);
    parts.push(value(data));
    above = low;
  }
  kept(0);
  return concat(parts);
}

/** A signal with its open latches passed: piece by piece. */
function latchedOf(netlist: Netlist, name: string, given: Record<string, Bits>): Bits {
  const value = valuesOf(netlist, { inputs: given });
  const isOne = (bit: Bit) => digitAt(value(bit.node), bit.bit) === '1';
  const parts = signalOf(netlist, name).pieces.map((id) => {
    const { node, signal, low } = netlist.pieces[id];
    const latch = netlist.latches.find((one) => one.signal === signal && one.low === low);
    if (latch === undefined) return value(node);
    const loaded = latch.asynchronous.find(({ control, active }) => isOne(control) === (active === 'high'));
    if (loaded !== undefined) return value(loaded.value);
    return isOne(latch.gate) === (latch.active === 'high') ? value(latch.data) : latch.initial;
  });
  return concat(parts.reverse());
}

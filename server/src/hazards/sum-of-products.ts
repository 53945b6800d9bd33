// Two-level and deeper logic of and, or and not gates, bit by bit: its inputs, its value for given levels of them with
// unknown ones among them, and the product (or sum) that keeps its value while one input changes.

import { bitKey } from '../netlist/bit-key';
import { digitAt } from '../netlist/four-state';
import type { Bit, Netlist } from '../netlist/netlist';
import { isSource, isWiring, Op } from '../netlist/operators';
import { operandsOfBit, sourceBit } from '../netlist/trace';

export type Level = 0 | 1 | 'x';

export interface SumOfProducts {
  /** Register and port bits, in the order they were met. */
  readonly inputs: readonly Bit[];
  /** By Eichelberger's ternary rules (Hazard Detection in Combinational and Sequential Switching Circuits, 1965). */
  valueAt(levels: readonly Level[]): Level;
}

/** Null where something else than such gates is in it, where it has more inputs than that, or where it has no gate. */
export function sumOfProducts(netlist: Netlist, root: Bit, mostInputs: number): SumOfProducts | null {
  const { constants, nodes } = netlist;
  const inputs: Bit[] = [];
  const gates: { readonly key: number; readonly op: number; readonly operands: readonly number[] }[] = [];
  const made = new Map<number, 'open' | 'done'>();
  const fixed = new Map<number, Level>();
  const start = sourceBit(nodes, root);
  const waiting: Bit[] = [start];
  for (let bit = waiting.at(-1); bit !== undefined; bit = waiting.at(-1)) {
    const key = bitKey(bit);
    const op = nodes.op[bit.node];
    if (made.get(key) === 'done') {
      waiting.pop();
      continue;
    }
    if (isSource(op)) {
      if (op === Op.constant) {
        const digit = digitAt(constants[nodes.aux[bit.node]], bit.bit);
        if (digit !== '0' && digit !== '1') return null;
        fixed.set(key, digit === '1' ? 1 : 0);
      } else if (op === Op.register || op === Op.input) {
        inputs.push(bit);
        if (inputs.length > mostInputs) return null;
      } else return null;
      made.set(key, 'done');
      continue;
    }
    if (!gateOps.has(op) && !isWiring(op)) return null;
    const operands = operandsOfBit(nodes, bit).map((operand) => sourceBit(nodes, operand));
    if (made.get(key) === 'open') {
      gates.push({ key, op, operands: operands.map(bitKey) });
      made.set(key, 'done');
      continue;
    }
    made.set(key, 'open');
    const missing = operands.filter((operand) => made.get(bitKey(operand)) !== 'done');
    // Logic that feeds itself is no sum of products.
    if (missing.some((operand) => made.get(bitKey(operand)) === 'open')) return null;
    waiting.push(...missing);
  }
  if (gates.length === 0) return null;
  return {
    inputs,
    valueAt(levels) {
      const values = new Map<number, Level>(fixed);
      for (const [index, input] of inputs.entries()) values.set(bitKey(input), levels[index]);
      for (const { key, op, operands } of gates)
        values.set(
          key,
          gateValue(
            op,
            operands.map((operand) => values.get(operand) ?? 'x'),
          ),
        );
      return values.get(bitKey(start)) ?? 'x';
    },
  };
}

const gateOps: ReadonlySet<number> = new Set([Op.and, Op.nand, Op.or, Op.nor, Op.not, Op.buf]);

function gateValue(op: number, values: readonly Level[]): Level {
  switch (op) {
    case Op.and:
      return allOf(values);
    case Op.nand:
      return turned(allOf(values));
    case Op.or:
      return turned(allOf(values.map(turned)));
    case Op.nor:
      return allOf(values.map(turned));
    case Op.not:
      return turned(values[0]);
    default:
      return values[0];
  }
}

function allOf(values: readonly Level[]): Level {
  if (values.includes(0)) return 0;
  return values.includes('x') ? 'x' : 1;
}

function turned(level: Level): Level {
  return level === 'x' ? 'x' : level === 1 ? 0 : 1;
}

/**
 * The inputs that must keep their levels for the value to stand whatever input `moving` does: a term of a redundant product
 * where the value is 1, of a sum where it is 0. `levels`: without `x`. In order of the inputs.
 */
export function holdingTerm(logic: SumOfProducts, levels: readonly Level[], moving: number): readonly number[] {
  const kept = new Set(levels.map((_, index) => index).filter((index) => index !== moving));
  const value = logic.valueAt(levels);
  for (const index of [...kept]) {
    kept.delete(index);
    if (!holdsFor(logic, levels, kept, value)) kept.add(index);
  }
  return [...kept].sort((left, right) => left - right);
}

/** Whether the function has the value for all levels of the inputs that are not kept. */
function holdsFor(logic: SumOfProducts, levels: readonly Level[], kept: ReadonlySet<number>, value: Level): boolean {
  const free = levels.map((_, index) => index).filter((index) => !kept.has(index));
  for (let setting = 0; setting < 2 ** free.length; setting++) {
    const tried = [...levels];
    for (const [position, index] of free.entries()) tried[index] = ((setting >> position) & 1) as 0 | 1;
    if (logic.valueAt(tried) !== value) return false;
  }
  return true;
}

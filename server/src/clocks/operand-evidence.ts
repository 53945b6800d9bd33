// What speaks for a bit being a clock where a gate has several operands (definition 4): it stands in an edge list, it
// comes from registers alone, it is a port that feeds data, it has a clock's name. Facts only; the order in which they
// count is `clock-operands.ts`.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { coneOperands, coneStart } from './cone-bits';
import { constantLevel, type Context, opOf } from './context';
import { stepOf } from './gate-shape';
import { createMemoWalk, type MemoWalk } from './memo-walk';
import { peel, peelTrail } from './peel';

export interface OperandEvidence {
  /** It, or what it is made of by gates and choices, clocks a register. */
  standsInEdgeList(source: Bit): boolean;
  /** Nothing but register outputs and constants in it, and at least one register. */
  isFromRegisters(source: Bit): boolean;
  /** As `isFromRegisters`, latches allowed. */
  isFromStorage(source: Bit): boolean;
  /** A port, behind buffers and inverters perhaps, that reaches a register's or latch's data. */
  isPortFeedingData(source: Bit): boolean;
  /** The level of the gate of a latch that the bit is an output of, peeled; null where it is no latch. */
  latchGateOf(source: Bit): Bit | null;
}

export function createOperandEvidence(context: Context): OperandEvidence {
  let edgeListWalk: MemoWalk<boolean> | null = null;
  const kindsIn = createKindWalk(context);
  let dataFed: ReadonlySet<number> | null = null;
  return {
    standsInEdgeList(source) {
      edgeListWalk ??= createEdgeListWalk(context);
      return edgeListWalk(source);
    },
    isFromRegisters(source) {
      return (kindsIn(coneStart(context, source)) & ~Kind.constant) === Kind.register;
    },
    isFromStorage(source) {
      const kinds = kindsIn(coneStart(context, source)) & ~Kind.constant;
      return kinds !== 0 && (kinds & Kind.other) === 0;
    },
    isPortFeedingData(source) {
      const { bit } = peel(context, source);
      if (opOf(context, bit) !== Op.input) return false;
      dataFed ??= portsFeedingData(context);
      return dataFed.has(bitKey(bit));
    },
    latchGateOf(source) {
      const step = stepOf(context, peel(context, source).bit);
      return step.kind === 'latch' ? peel(context, context.netlist.latches[step.latch].gate).bit : null;
    },
  };
}

function createEdgeListWalk(context: Context) {
  const edgeBits = new Set<number>();
  for (const { clock } of context.netlist.registers) {
    for (const { bit } of peelTrail(context, clock)) edgeBits.add(bitKey(bit));
  }
  return createMemoWalk<boolean>({
    operandsOf(bit) {
      if (edgeBits.has(bitKey(bit))) return [];
      const step = stepOf(context, bit);
      if (step.kind === 'pass') return [step.operand];
      return step.kind === 'gate' ? step.operands : [];
    },
    valueOf: (bit, _operands, values) => edgeBits.has(bitKey(bit)) || values.some((value) => value === true),
  });
}

const Kind = { constant: 1, register: 2, latch: 4, other: 8 } as const;

function createKindWalk(context: Context) {
  return createMemoWalk<number>({
    operandsOf: (bit) => coneOperands(context, bit),
    valueOf: (bit, operands, values) =>
      operands.length === 0 ? kindOfSource(context, bit) : values.reduce<number>((all, value) => all | (value ?? 0), 0),
  });
}

function kindOfSource(context: Context, bit: Bit): number {
  if (constantLevel(context, bit) !== null) return Kind.constant;
  const op = opOf(context, bit);
  return op === Op.register ? Kind.register : op === Op.latch ? Kind.latch : Kind.other;
}

/** Every port bit in the data of a register or latch, enables included: they choose between data. */
function portsFeedingData(context: Context): ReadonlySet<number> {
  const { registers, latches } = context.netlist;
  const seen = new Set<number>();
  const ports = new Set<number>();
  const waiting: Bit[] = [];
  for (const { data, width } of [...registers, ...latches]) {
    for (let bit = 0; bit < width; bit++) waiting.push(coneStart(context, { node: data, bit }));
  }
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    const key = bitKey(bit);
    if (seen.has(key)) continue;
    seen.add(key);
    if (opOf(context, bit) === Op.input) ports.add(key);
    for (const operand of coneOperands(context, bit)) waiting.push(operand);
  }
  return ports;
}

/** The words that name a clock, as whole parts of a name (definition 4). */
const clockWords: ReadonlySet<string> = new Set(['clk', 'clock', 'ck', 'osc']);

/** Whether the own name of a signal has a clock word among its parts: `sys_clk`, `clkA`, `Clock2`, not `clkdiv` or `ack`. */
export function isNamedAsClock(name: string): boolean {
  const ownName = name.slice(name.lastIndexOf('.') + 1);
  const parts = ownName.replace(/([a-z])([A-Z])/g, '$1 $2').split(/[^A-Za-z]+/);
  return parts.some((part) => clockWords.has(part.toLowerCase()));
}

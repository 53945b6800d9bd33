// One step back from a bit, in the words that a clock cares about: passed on, turned over, gated, chosen, or an end.
// What is written as one expression of one gate is one gate: nameless operands of the same operator are taken in.

import { bitKey } from '../netlist/bit-key';
import type { Bit, LatchId, RegisterId } from '../netlist/netlist';
import { isMemoryOperator, Op } from '../netlist/operators';
import { operandsOfBit } from '../netlist/trace';
import { constantLevel, type Context, isNoGate, opOf, operandSource, operandSources, sourceOf } from './context';

export type Step =
  /** A port, inout or tri-state net, black box, constant, undriven bit, a latch without a gate: the walk ends. */
  | { readonly kind: 'end' }
  | { readonly kind: 'register'; readonly register: RegisterId; readonly bit: number }
  | { readonly kind: 'latch'; readonly latch: LatchId; readonly bit: number }
  /** A buffer, delay or inverter, however it is written. */
  | { readonly kind: 'pass'; readonly operand: Bit; readonly inverted: boolean }
  | GateStep;

export interface GateStep {
  readonly kind: 'gate';
  /** `other`: logic of no known form. `choice`: a multiplexer. */
  readonly shape: 'and' | 'or' | 'xor' | 'choice' | 'other';
  /** Whether the output is turned over (nand, nor, xnor). */
  readonly inverted: boolean;
  /** Distinct source bits; of a choice the data that are no constants. */
  readonly operands: readonly Bit[];
  /** Of a choice: the bits that select. */
  readonly selects: readonly Bit[];
  /** Of a choice with one datum: the level it gives instead of the datum, where that is always the same. */
  readonly constantLevel: 0 | 1 | null;
}

/** `source` is a bit that wiring has been looked through. */
export function stepOf(context: Context, source: Bit): Step {
  const { node, bit } = source;
  const aux = context.nodes.aux[node];
  const op = opOf(context, source);
  switch (op) {
    case Op.constant:
    case Op.input:
    case Op.blackBox:
    case Op.undriven:
    case Op.hole:
    case Op.tristate:
    case Op.net: // nets that only drive each other
    case Op.zeroExtend: // a zero
      return { kind: 'end' };
    case Op.register:
      return { kind: 'register', register: aux as RegisterId, bit };
    case Op.latch:
      if (isNoGate(context, context.netlist.latches[aux].gate)) return { kind: 'end' };
      return { kind: 'latch', latch: aux as LatchId, bit };
    case Op.delay:
    case Op.buf:
    case Op.not:
      return { kind: 'pass', operand: operandSource(context, node, 0, bit), inverted: op === Op.not };
    case Op.resolve:
      return wiredLogic(context, source);
    case Op.mux:
    case Op.select:
    case Op.readAt:
      return choiceStep(context, source);
    default:
      return gateStep(context, source);
  }
}

/** wand and wor are gates made of wire; every other net with several drivers is an end (definition 7). */
function wiredLogic(context: Context, source: Bit): Step {
  const { kind } = context.netlist.resolutions[context.nodes.aux[source.node]];
  if (kind !== 'wand' && kind !== 'wor') return { kind: 'end' };
  return simplest(context, kind === 'wand' ? 'and' : 'or', 'straight', sourcesOf(context, source));
}

function gateStep(context: Context, source: Bit): Step {
  const form = formOf(context, source);
  if (form === null) return gate('other', 'straight', distinct(sourcesOf(context, source)));
  return simplest(context, form.shape, form.turn, flattened(context, source, form.shape));
}

type Turn = 'straight' | 'inverted';
type Associative = 'and' | 'or' | 'xor';

function formOf(context: Context, source: Bit): { shape: Associative; turn: Turn } | null {
  switch (opOf(context, source)) {
    case Op.and:
    case Op.reduceAnd:
      return { shape: 'and', turn: 'straight' };
    case Op.nand:
      return { shape: 'and', turn: 'inverted' };
    case Op.or:
    case Op.reduceOr:
      return { shape: 'or', turn: 'straight' };
    case Op.nor:
      return { shape: 'or', turn: 'inverted' };
    case Op.xor:
    case Op.reduceXor:
      return { shape: 'xor', turn: 'straight' };
    case Op.xnor:
      return { shape: 'xor', turn: 'inverted' };
    case Op.notEqual:
      return isNarrow(context, source) ? { shape: 'xor', turn: 'straight' } : null;
    case Op.equal:
      return isNarrow(context, source) ? { shape: 'xor', turn: 'inverted' } : null;
    default:
      return null;
  }
}

/** Whether a comparison is of single bits: an exclusive or by another name. */
function isNarrow(context: Context, source: Bit): boolean {
  const { nodes } = context;
  return nodes.width[nodes.pool[nodes.first[source.node]]] === 1;
}

function sourcesOf(context: Context, source: Bit): Bit[] {
  return operandsOfBit(context.nodes, source).map((operand) => sourceOf(context, operand));
}

/** Operands in order, nameless gates of the same operator replaced by theirs. */
function flattened(context: Context, source: Bit, shape: Associative): Bit[] {
  const result: Bit[] = [];
  const waiting = sourcesOf(context, source).reverse();
  const seen = new Set<number>();
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const form = formOf(context, next);
    const joins = form?.shape === shape && form.turn === 'straight' && context.names.nameOf(next) === null;
    if (!joins) result.push(next);
    else if (!seen.has(bitKey(next))) for (const operand of sourcesOf(context, next).reverse()) waiting.push(operand);
    seen.add(bitKey(next));
  }
  return result;
}

/** One operand left, or one and a known constant in an exclusive or: no gate but a buffer or an inverter. */
function simplest(context: Context, shape: Associative, turn: Turn, operands: readonly Bit[]): Step {
  const inverted = turn === 'inverted';
  const different = shape === 'xor' ? operands : distinct(operands);
  if (different.length === 1) return { kind: 'pass', operand: different[0], inverted };
  if (shape === 'xor' && different.length === 2) {
    for (const [one, other] of [different, [...different].reverse()]) {
      const level = constantLevel(context, other);
      if (level === 0 || level === 1) return { kind: 'pass', operand: one, inverted: inverted !== (level === 1) };
    }
  }
  return gate(shape, turn, distinct(different));
}

function gate(shape: GateStep['shape'], turn: Turn, operands: readonly Bit[]): GateStep {
  return { kind: 'gate', shape, inverted: turn === 'inverted', operands, selects: [], constantLevel: null };
}

function choiceStep(context: Context, source: Bit): Step {
  const { data, selects } = choiceParts(context, source);
  const levels = new Set(data.map((bit) => constantLevel(context, bit)).filter((level) => level !== null));
  const moving = distinct(data.filter((bit) => constantLevel(context, bit) === null));
  if (moving.length === 0) return constantChoice(context, source, selects);
  if (moving.length === 1 && levels.size === 0) return { kind: 'pass', operand: moving[0], inverted: false };
  const [level] = moving.length === 1 && levels.size === 1 ? levels : [null];
  return {
    kind: 'gate',
    shape: 'choice',
    inverted: false,
    operands: moving,
    selects,
    constantLevel: level === 0 || level === 1 ? level : null,
  };
}

/** `s ? 1 : 0` is s, `s ? 0 : 1` its inverse; a table of constants is a decode of what selects. */
function constantChoice(context: Context, source: Bit, selects: readonly Bit[]): Step {
  if (opOf(context, source) !== Op.mux) return gate('other', 'straight', selects);
  const whenOne = constantLevel(context, operandSource(context, source.node, 1, source.bit));
  const whenZero = constantLevel(context, operandSource(context, source.node, 2, source.bit));
  if (whenOne === 1 && whenZero === 0) return { kind: 'pass', operand: selects[0], inverted: false };
  if (whenOne === 0 && whenZero === 1) return { kind: 'pass', operand: selects[0], inverted: true };
  return gate('other', 'straight', selects);
}

function choiceParts(context: Context, { node, bit }: Bit): { data: Bit[]; selects: Bit[] } {
  const { nodes } = context;
  const arity = nodes.arity[node];
  switch (nodes.op[node]) {
    case Op.mux:
      return {
        data: [1, 2].map((operand) => operandSource(context, node, operand, bit)),
        selects: [operandSource(context, node, 0, 0)],
      };
    case Op.select: {
      const values = Array.from({ length: arity / 2 - 1 }, (_, arm) => 2 * arm + 2);
      return {
        data: [...values, arity - 1].map((operand) => operandSource(context, node, operand, bit)),
        selects: movingSources(context, node, 0),
      };
    }
    default:
      return { data: distinct(operandSources(context, node, 0)), selects: movingSources(context, node, 1) };
  }
}

function movingSources(context: Context, node: Bit['node'], operand: number): Bit[] {
  return distinct(operandSources(context, node, operand).filter((bit) => constantLevel(context, bit) === null));
}

/** Operators that make something new of all they hear: no buffer or inverter, however they are used. */
export function isArithmetic(op: number): boolean {
  return (op >= Op.lessUnsigned && op <= Op.shiftRightSigned) || op === Op.writeAt || isMemoryOperator(op);
}

/** Each bit once, in first order. */
export function distinct(bits: readonly Bit[]): Bit[] {
  const seen = new Set<number>();
  return bits.filter((bit) => !seen.has(bitKey(bit)) && seen.add(bitKey(bit)));
}

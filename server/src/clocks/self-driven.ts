// Whether a register toggles or counts (definition 10): its next state is made of its own bits, with enables, clears
// and constants, and some of them come round to themselves. A shift from elsewhere, a load, an accumulator of data, a
// constant that is shifted in once: none of these.

import { bitKey } from '../netlist/bit-key';
import type { Bit, Register } from '../netlist/netlist';
import { isSource } from '../netlist/operators';
import { coneOperands, coneStart } from './cone-bits';
import { constantLevel, type Context, opOf } from './context';
import { type GateStep, stepOf } from './gate-shape';

interface Study {
  readonly context: Context;
  readonly register: Register;
  /** Inputs from outside that turn bits by an exclusive or or are counted: one enables, several are data. */
  readonly enables: Set<number>;
  /** What operands are computed from, and what gates do, by key. */
  readonly heard: Map<number, Hearing>;
  readonly gates: Map<number, ThroughGate | null>;
  /** Work left: a counter's own logic is small, so a large cone is no counter. */
  left: number;
}

/** What a bit is computed from: the register's own bits, by index, and the keys of the first two others. */
interface Hearing {
  readonly own: readonly number[];
  readonly others: readonly number[];
}

export function isSelfDriven(context: Context, register: Register): boolean {
  const left = 4_000 + 200 * register.width;
  const study: Study = { context, register, enables: new Set(), heard: new Map(), gates: new Map(), left };
  const movers: (readonly number[])[][] = [];
  for (let bit = 0; bit < register.width; bit++) {
    const moving = moversOf(study, bit);
    if (moving === null) return false;
    movers.push(moving);
  }
  return study.enables.size <= 1 && comesRound(movers);
}

/** Whether some bit hangs on itself, by way of others or turned over: what is left when all else has settled. */
function comesRound(movers: readonly (readonly (readonly number[])[])[]): boolean {
  if (movers.some((lists, bit) => lists.some((list) => list.includes(bit)))) return true;
  const followers = movers.map((): number[] => []);
  const waitsFor = movers.map((lists) => lists.reduce((sum, list) => sum + list.length, 0));
  for (const [bit, lists] of movers.entries()) for (const mover of lists.flat()) followers[mover].push(bit);
  const settled = waitsFor.flatMap((count, bit) => (count === 0 ? [bit] : []));
  let count = 0;
  for (let bit = settled.pop(); bit !== undefined; bit = settled.pop()) {
    count += 1;
    for (const follower of followers[bit]) if (--waitsFor[follower] === 0) settled.push(follower);
  }
  return count < movers.length;
}

/**
 * The own bits that can move one bit: any but itself as it is, which only holds. Follows every branch that its data may
 * come by; what selects between them is an enable or a clear. Null where data comes from elsewhere.
 */
function moversOf(study: Study, index: number): (readonly number[])[] | null {
  const { context, register } = study;
  const movers: (readonly number[])[] = [];
  const seen = new Set<number>();
  const waiting = [{ bit: coneStart(context, { node: register.data, bit: index }), inverted: false }];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { bit, inverted } = next;
    const key = bitKey(bit) * 2 + (inverted ? 1 : 0);
    if (seen.has(key) || constantLevel(context, bit) !== null) continue;
    seen.add(key);
    if (--study.left < 0) return null;
    if (bit.node === register.node) {
      if (bit.bit !== index || inverted) movers.push([bit.bit]);
      continue;
    }
    const through = throughBit(study, bit);
    if (through === null) return null;
    if (through.movers.length > 0) movers.push(through.movers);
    for (const operand of through.follow) {
      waiting.push({ bit: coneStart(context, operand), inverted: inverted !== through.inverted });
    }
  }
  return movers;
}

interface ThroughGate {
  /** Own bits, each of which moves the output. */
  readonly movers: readonly number[];
  /** Operands that pass on what they are. */
  readonly follow: readonly Bit[];
  readonly inverted: boolean;
}

/** Asked once per gate: a wide adder stands behind every bit of its register. */
function throughBit(study: Study, bit: Bit): ThroughGate | null {
  const known = study.gates.get(bitKey(bit));
  if (known !== undefined) return known;
  const step = stepOf(study.context, bit);
  const through =
    step.kind === 'gate'
      ? throughGate(study, step)
      : step.kind === 'pass'
        ? { movers: [], follow: [step.operand], inverted: step.inverted }
        : null;
  study.gates.set(bitKey(bit), through);
  return through;
}

/**
 * Null where the gate lets data in from elsewhere. Of an and or an or, an operand without own bits enables or clears; of
 * any other gate it may be one bit for the whole register.
 */
function throughGate(study: Study, step: GateStep): ThroughGate | null {
  const { inverted } = step;
  if (step.shape === 'choice') return { movers: [], follow: step.operands, inverted };
  const open = step.operands.filter((operand) => constantLevel(study.context, operand) === null);
  const hearings = open.map((operand) => hearingOf(study, operand));
  const own = open.filter((_, index) => hearings[index].own.length > 0);
  if (own.length === 0) return null;
  if ((step.shape === 'and' || step.shape === 'or') && own.length === 1) {
    return { movers: [], follow: own, inverted };
  }
  if (step.shape !== 'and' && step.shape !== 'or') {
    for (const [index, operand] of open.entries()) {
      const { own: heard, others } = hearings[index];
      if (heard.length === 0) study.enables.add(others.length === 1 ? others[0] : bitKey(operand));
    }
    if (step.shape === 'other' && hearings.some((hearing) => hearing.own.length > 0 && hearing.others.length > 0))
      return null;
  }
  // A function of several operands is none of them: every own bit in it moves the result. What stands below is followed
  // all the same, to see that nothing else comes in.
  const movers = [...new Set(hearings.flatMap((hearing) => hearing.own))];
  return { movers, follow: step.shape === 'other' ? [] : own, inverted };
}

function hearingOf(study: Study, start: Bit): Hearing {
  const from = coneStart(study.context, start);
  const known = study.heard.get(bitKey(from)) ?? listen(study, from);
  study.heard.set(bitKey(from), known);
  return known;
}

function listen(study: Study, start: Bit): Hearing {
  const { context, register } = study;
  const own: number[] = [];
  const others: number[] = [];
  const seen = new Set<number>();
  const waiting = [start];
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    const key = bitKey(bit);
    if (seen.has(key)) continue;
    seen.add(key);
    if (--study.left < 0) return { own, others: [key, key] };
    if (bit.node === register.node) own.push(bit.bit);
    else if (!isSource(opOf(context, bit))) for (const operand of coneOperands(context, bit)) waiting.push(operand);
    else if (constantLevel(context, bit) === null && others.length < 2) others.push(key);
  }
  return { own, others };
}

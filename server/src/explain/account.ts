// An account: why a bit changed at an instant, or why an edge changed nothing: the chain of causes back to the drive, as
// data. Times in ps. The words stand in `account-words.ts`. Follows what the waves recorded and decides nothing anew.

import type { ClockNetwork } from '../clocks/network';
import type { BitNames } from '../netlist/bit-names';
import type { Digit } from '../netlist/four-state';
import type { Bit, EdgeKind, Latch, Netlist, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { ChangeKind, type Doubt, type Waves } from '../predict/waves';
import type { Span } from '../text/place';
import { type HeldReason, heldReasonOf } from './account-held';
import { logicOperands, type Operand, sampledOperands } from './account-operands';
import type { Places } from './places';
import { changeAtOrBefore, digitAfter, digitBefore } from './wave-reading';

export interface AccountContext {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly names: BitNames;
  readonly places: Places;
  readonly waves: Waves;
  /** Doubts by `doubtKey`. */
  readonly doubts: ReadonlyMap<string, DoubtKind>;
}

export type DoubtKind = Doubt['kind'];

export function accountContext(parts: Omit<AccountContext, 'doubts'>): AccountContext {
  const doubts = new Map(parts.waves.doubts.map(({ cause, kind, node }) => [doubtKey(node, cause), kind]));
  return { ...parts, doubts };
}

/** A doubt is known by what was sampled wrongly and by the clock change that sampled it. */
function doubtKey(node: NodeId, cause: number): string {
  return `${node} ${cause}`;
}

export interface Account {
  readonly signal: string;
  /** The instant that was asked about. */
  readonly at: number;
  /**
   * changed: the bit changed at `at`. answered: it changed later, because of what happened at `at`. held: an edge met it
   * at `at` and it kept its value. steady: nothing met it at `at`; the steps tell of its last change before.
   */
  readonly outcome: 'changed' | 'answered' | 'held' | 'steady';
  /** Its value before and after the change that is told of; equal where none is. */
  readonly from: Digit;
  readonly to: Digit;
  /** The change, its cause, that one's cause and so on; of `held`, from the edge that met it. The last is the drive. */
  readonly steps: readonly AccountStep[];
  readonly held: HeldReason | null;
}

export interface AccountStep {
  readonly what: 'drive' | 'sampled' | 'asynchronous' | 'latch' | 'logic';
  /** Full name of the bit; null for a part of an expression. */
  readonly signal: string | null;
  /** What a person reads for it: its name, or the text of the expression. */
  readonly text: string;
  readonly at: number;
  readonly before: Digit;
  readonly after: Digit;
  /** Of `sampled`: the clock as written, and the edge that samples. */
  readonly clock: { readonly written: string; readonly edge: EdgeKind } | null;
  /** Of `asynchronous` and `latch`: what let the value in, and the level at which it does. */
  readonly control: { readonly signal: string; readonly active: 'high' | 'low' } | null;
  /** Of `sampled` and `logic`: the named bits that the new value was made from, as they were read. */
  readonly operands: readonly Operand[];
  /** Why the value is not certain: a race, an edge from an unknown level, a timing check that failed. */
  readonly doubt: DoubtKind | null;
  /** The line that makes it so. */
  readonly span: Span;
}

/** `bit` may be any bit of the netlist; `name` is what to call it. */
export function accountOf(context: AccountContext, bit: Bit, name: string, at: number): Account {
  const { netlist, waves } = context;
  const source = sourceBit(netlist.nodes, bit);
  const last = changeAtOrBefore(waves, source, at);
  if (last >= 0 && waves.changes.time[last] === at)
    return accountOfChange(context, { name, at, outcome: 'changed' }, last);
  const edge = clockChangeAt(context, source, at);
  if (edge >= 0) return accountOfEdge(context, source, { name, at }, edge);
  const value = digitAfter(waves, source, at);
  const steps = last < 0 ? [] : stepsFrom(context, last);
  return { signal: name, at, outcome: 'steady', from: value, to: value, steps, held: null };
}

/** The chain of causes of one recorded change, itself first. A cause stands before its effect, so it ends. */
export function stepsFrom(context: AccountContext, change: number): readonly AccountStep[] {
  const steps: AccountStep[] = [];
  const { cause } = context.waves.changes;
  for (let index = change; index >= 0; index = cause[index]) steps.push(stepOf(context, index));
  return steps;
}

function accountOfChange(
  context: AccountContext,
  asked: { readonly name: string; readonly at: number; readonly outcome: 'changed' | 'answered' },
  change: number,
): Account {
  const steps = stepsFrom(context, change);
  const { after, before } = steps[0];
  return { signal: asked.name, at: asked.at, outcome: asked.outcome, from: before, to: after, steps, held: null };
}

/** The change of a register's clock pin at that instant; -1 where there is none, and for other bits. */
function clockChangeAt({ netlist, waves }: AccountContext, source: Bit, at: number): number {
  const register = registerAt(netlist, source.node);
  if (register === null) return -1;
  const edge = changeAtOrBefore(waves, sourceBit(netlist.nodes, register.clock), at);
  return edge >= 0 && waves.changes.time[edge] === at ? edge : -1;
}

/** What came of a change of the register's clock pin: an answer later, or nothing and why. */
function accountOfEdge(
  context: AccountContext,
  source: Bit,
  asked: { readonly name: string; readonly at: number },
  edge: number,
): Account {
  const { netlist, waves } = context;
  const answer = answerTo(waves, source, edge);
  if (answer >= 0) return accountOfChange(context, { ...asked, outcome: 'answered' }, answer);
  const value = digitAfter(waves, source, asked.at);
  const register = netlist.registers[netlist.nodes.aux[source.node]];
  return {
    signal: asked.name,
    at: asked.at,
    outcome: 'held',
    from: value,
    to: value,
    steps: stepsFrom(context, edge),
    held: heldReasonOf(context, register, source.bit, edge),
  };
}

/** The change of `bit` that `edge` caused; -1 where it caused none. */
export function answerTo(waves: Waves, bit: Bit, edge: number): number {
  const own = waves.changesOf(bit);
  for (let position = 0; position < own.length; position += 1) {
    if (waves.changes.cause[own[position]] === edge) return own[position];
  }
  return -1;
}

export function stepOf(context: AccountContext, change: number): AccountStep {
  const { netlist, waves } = context;
  const { changes } = waves;
  const bit = { node: changes.node[change] as NodeId, bit: changes.bit[change] };
  const at = changes.time[change];
  return {
    ...describeBit(context, bit),
    at,
    before: digitBefore(waves, bit, change),
    after: (['0', '1', 'z', 'x'] as const)[changes.value[change]],
    doubt: context.doubts.get(doubtKey(bit.node, changes.cause[change])) ?? null,
    ...causeOf(context, netlist, bit, change),
  };
}

function describeBit({ names, netlist, places }: AccountContext, bit: Bit): Pick<AccountStep, 'signal' | 'text'> {
  const signal = names.nameOf(bit);
  const place = netlist.places[netlist.nodes.place[bit.node]];
  return { signal, text: signal ?? (place === undefined ? 'a constant' : places.textOf(place)) };
}

type Cause = Pick<AccountStep, 'what' | 'clock' | 'control' | 'operands' | 'span'>;

function causeOf(context: AccountContext, netlist: Netlist, bit: Bit, change: number): Cause {
  const none = { clock: null, control: null, operands: [] };
  const { kind } = context.waves.changes;
  const register = registerAt(netlist, bit.node);
  const span = context.places.spanOf;
  if (kind[change] === ChangeKind.sampled && register !== null) {
    return {
      ...none,
      what: 'sampled',
      clock: { written: register.clockText, edge: register.edge },
      operands: sampledOperands(context, { node: register.data, bit: bit.bit }, causeTime(context, change)),
      span: span(register.samplePlace),
    };
  }
  if (kind[change] === ChangeKind.asynchronous && register !== null)
    return asynchronousCause(context, register, change);
  const latch = latchAt(netlist, bit.node);
  if (latch !== null) return { ...none, what: 'latch', control: gateOf(context, latch), span: span(latch.place) };
  const place = span(netlist.places[netlist.nodes.place[bit.node]]);
  if (kind[change] === ChangeKind.drive) return { ...none, what: 'drive', span: place };
  const operands = logicOperands(context, bit, causeTime(context, change));
  return { ...none, what: 'logic', operands, span: place };
}

/** The control that the cause is a change of; of a cause in the loaded value, the first control that is active. */
function asynchronousCause(context: AccountContext, register: Register, change: number): Cause {
  const { names, netlist, places, waves } = context;
  const at = causeTime(context, change);
  const active = register.asynchronous.find(
    ({ control, active: level }) =>
      digitAfter(waves, sourceBit(netlist.nodes, control), at) === (level === 'high' ? '1' : '0'),
  );
  const shown = active ?? register.asynchronous[0];
  return {
    what: 'asynchronous',
    clock: null,
    control: { signal: names.canonicalNameOf(shown.control) ?? places.textOf(shown.place), active: shown.active },
    operands: [],
    span: places.spanOf(shown.place),
  };
}

function gateOf({ names, places }: AccountContext, { active, gate, holdPlace }: Latch): AccountStep['control'] {
  return { signal: names.canonicalNameOf(gate) ?? places.textOf(holdPlace), active };
}

/** When the cause of a change happened; of the drive, when the change itself did. */
function causeTime({ waves: { changes } }: AccountContext, change: number): number {
  const cause = changes.cause[change];
  return changes.time[cause < 0 ? change : cause];
}

export function registerAt({ nodes, registers }: Netlist, node: NodeId): Register | null {
  return nodes.op[node] === Op.register ? registers[nodes.aux[node]] : null;
}

function latchAt({ nodes, latches }: Netlist, node: NodeId): Latch | null {
  return nodes.op[node] === Op.latch ? latches[nodes.aux[node]] : null;
}

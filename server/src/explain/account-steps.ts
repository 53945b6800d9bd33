// One change as a step of an account: what it was, what let it happen, what it was made from and which line says so; and
// the chain of such steps from a change back to the drive.

import type { ClockNetwork } from '../clocks/network';
import type { Drive } from '../predict/drive';
import type { BitNames } from '../netlist/bit-names';
import type { Digit } from '../netlist/four-state';
import {
  type Bit,
  contentHolders,
  type EdgeKind,
  type Latch,
  type Netlist,
  type NodeId,
  type Register,
} from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { ChangeKind, type Doubt, type Level, type Waves } from '../predict/waves';
import type { Span } from '../text/place';
import { logicOperands, type Operand, sampledOperands } from './account-operands';
import type { Places } from './places';
import { standardDigit, standardSample } from './standard-reading';
import { digitAfter, digitBefore } from './wave-reading';
import { digitOf } from './words';

export interface AccountContext {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly names: BitNames;
  readonly places: Places;
  readonly waves: Waves;
  /** What is assumed of the ports; null where nobody handed it in. */
  readonly drive: Drive | null;
  /** Doubts by `doubtKey`. */
  readonly doubts: ReadonlyMap<string, DoubtKind>;
  /** What holds the contents of memories. */
  readonly contents: ReadonlySet<NodeId>;
}

export type DoubtKind = Doubt['kind'];

export function accountContext(
  parts: Omit<AccountContext, 'doubts' | 'contents' | 'drive'> & { readonly drive?: Drive },
): AccountContext {
  const doubts = new Map(parts.waves.doubts.map(({ cause, kind, node }) => [doubtKey(node, cause), kind]));
  return { drive: null, ...parts, doubts, contents: contentHolders(parts.netlist) };
}

/** A doubt is known by what was sampled wrongly and by the clock change that sampled it. */
function doubtKey(node: NodeId, cause: number): string {
  return `${node} ${cause}`;
}

export interface AccountStep {
  readonly what: 'drive' | 'sampled' | 'asynchronous' | 'latch' | 'logic';
  /** Full name of the bit; null for a part of an expression. */
  readonly signal: string | null;
  /** What a person reads for it: its name, or the text of the expression. */
  readonly text: string;
  readonly at: number;
  /** A memory was written: its content, which has no digits. */
  readonly isContent: boolean;
  /** Of a content x. */
  readonly before: Digit;
  readonly after: Digit;
  /** Of `sampled`: the clock as written, and the edge that samples. */
  readonly clock: { readonly written: string; readonly edge: EdgeKind } | null;
  /** Of `asynchronous` and `latch`: what let the value in, and the level at which it does. */
  readonly control: { readonly signal: string; readonly active: 'high' | 'low' } | null;
  /** Of `sampled` and `logic`: the named bits that the new value was made from, as they were read. */
  readonly operands: readonly Operand[];
  /** What the language standard's evaluation gives, where it differs from the hardware's unknown (definition 15). */
  readonly standard: Digit | null;
  /** Why the value is not certain: a race, an edge from an unknown level, a timing check that failed. */
  readonly doubt: DoubtKind | null;
  /** The line that makes it so. */
  readonly span: Span;
}

/** The chain of causes of one recorded change, itself first. A cause stands before its effect, so it ends. */
export function stepsFrom(context: AccountContext, change: number): readonly AccountStep[] {
  const steps: AccountStep[] = [];
  const { cause } = context.waves.changes;
  for (let index = change; index >= 0; index = cause[index]) steps.push(stepOf(context, index));
  return steps;
}

export function stepOf(context: AccountContext, change: number): AccountStep {
  const { netlist, waves } = context;
  const { changes } = waves;
  const bit = { node: changes.node[change] as NodeId, bit: changes.bit[change] };
  const at = changes.time[change];
  const isContent = context.contents.has(bit.node);
  return {
    ...describeBit(context, bit),
    at,
    isContent,
    before: isContent ? 'x' : digitBefore(waves, bit, change),
    after: isContent ? 'x' : digitOf(changes.value[change] as Level),
    doubt: context.doubts.get(doubtKey(bit.node, changes.cause[change])) ?? null,
    ...causeOf(context, netlist, bit, change),
  };
}

function describeBit({ names, netlist, places }: AccountContext, bit: Bit): Pick<AccountStep, 'signal' | 'text'> {
  const signal = names.nameOf(bit);
  const place = netlist.places[netlist.nodes.place[bit.node]];
  return { signal, text: signal ?? (place === undefined ? 'a constant' : places.textOf(place)) };
}

type Cause = Pick<AccountStep, 'what' | 'clock' | 'control' | 'operands' | 'standard' | 'span'>;

function causeOf(context: AccountContext, netlist: Netlist, bit: Bit, change: number): Cause {
  const none = { clock: null, control: null, operands: [], standard: null };
  const { kind } = context.waves.changes;
  const register = registerAt(netlist, bit.node);
  const span = context.places.spanOf;
  const at = causeTime(context, change);
  if (kind[change] === ChangeKind.sampled && register !== null) {
    const data = { node: register.data, bit: bit.bit };
    return {
      ...none,
      what: 'sampled',
      clock: { written: register.clockText, edge: register.edge },
      operands: sampledOperands(context, data, at),
      standard: isUnknown(context, change) ? standardSampled(context, register, data, change) : null,
      span: span(register.samplePlace),
    };
  }
  if (kind[change] === ChangeKind.asynchronous && register !== null)
    return asynchronousCause(context, register, change);
  const latch = latchAt(netlist, bit.node);
  if (latch !== null) return { ...none, what: 'latch', control: gateOf(context, latch), span: span(latch.place) };
  const place = span(netlist.places[netlist.nodes.place[bit.node]]);
  if (kind[change] === ChangeKind.drive) return { ...none, what: 'drive', span: place };
  const operands = logicOperands(context, bit, at);
  const standard = isUnknown(context, change) ? standardDigit(context, bit, { at, side: 'after' }) : null;
  return { ...none, what: 'logic', operands, standard, span: place };
}

function standardSampled(context: AccountContext, register: Register, data: Bit, change: number): Digit | null {
  const { netlist, waves } = context;
  const at = causeTime(context, change);
  const edge = waves.changes.cause[change];
  const doubt = context.doubts.get(doubtKey(waves.changes.node[change] as NodeId, edge));
  if (doubt === undefined) return standardDigit(context, data, { at, side: 'before' });
  if (doubt !== 'perhaps-edge') return null;
  const pin = sourceBit(netlist.nodes, register.clock);
  const from = digitBefore(waves, pin, edge);
  const own = { node: register.node, bit: data.bit };
  const held = digitBefore(waves, own, change);
  return standardSample(context, { edge: register.edge, data, held }, { from, to: digitAfter(waves, pin, at), at });
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
    standard: null,
    span: places.spanOf(shown.place),
  };
}

function gateOf({ names, places }: AccountContext, { active, gate, holdPlace }: Latch): AccountStep['control'] {
  return { signal: names.canonicalNameOf(gate) ?? places.textOf(holdPlace), active };
}

function isUnknown({ waves: { changes } }: AccountContext, change: number): boolean {
  return changes.value[change] === 3;
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

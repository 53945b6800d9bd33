// Why a bit does not change in the whole run: the way back through what stands still too, to the input that holds it, the
// comparison that never comes true, the clock that does not move. Decides by what the run shows and by the rules of gates;
// where no single cause stands out it stops and says no more.

import type { ClockNetwork } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import type { BitNames } from '../netlist/bit-names';
import type { Digit } from '../netlist/four-state';
import type { Bit, Netlist, NodeId, Register } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { operandsOfBit, sourceBit } from '../netlist/trace';
import type { Drive } from '../predict/drive';
import type { Waves } from '../predict/waves';
import type { Span } from '../text/place';
import { heldReasonOf, isActiveEdge } from './account-held';
import type { Places } from './places';
import { digitAfter } from './wave-reading';
import { whyWords } from './why';
import { digitOf } from './words';

export interface NeverContext {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly names: BitNames;
  readonly places: Places;
  readonly waves: Waves;
  readonly drive: Drive | null;
}

/** One link: what stands still, at which value, and the kind of reason; the next link says more. */
export interface NeverStep {
  /** Full name, or the text of the expression. */
  readonly text: string;
  readonly value: Digit;
  readonly why: /** A port is held; `reason`: why that is assumed, in words, null where it is stated. */
    | { readonly kind: 'input'; readonly reason: string | null }
    | { readonly kind: 'constant' }
    /** No active edge comes. */
    | { readonly kind: 'clock'; readonly clock: string }
    | { readonly kind: 'control'; readonly control: string; readonly active: 'high' | 'low' }
    | { readonly kind: 'not-enabled'; readonly condition: string }
    /** At every active edge it samples what it holds. */
    | { readonly kind: 'same-value' }
    /** `taken`: the numbers that what is compared takes in the run, the first few; null where they are no numbers. */
    | { readonly kind: 'comparison'; readonly of: string; readonly taken: readonly string[]; readonly more: boolean }
    /** Whatever its operands are: by their widths or signs (definition 18). */
    | { readonly kind: 'fixed' }
    /** An operand decides. */
    | { readonly kind: 'logic' };
  readonly span: Span | null;
}

/** A sentence holds no more. */
const mostSteps = 10;
const mostEdges = 4_096;
const mostTaken = 8;

/** Empty where the bit changes. */
export function neverSteps(context: NeverContext, bit: Bit): readonly NeverStep[] {
  const steps: NeverStep[] = [];
  const seen = new Set<number>();
  let next: Bit | null = sourceBit(context.netlist.nodes, bit);
  while (next !== null && isStill(context, next) && !seen.has(bitKey(next)) && steps.length < mostSteps) {
    seen.add(bitKey(next));
    const found: Link = linkOf(context, next);
    if (found.why !== null) steps.push({ ...describe(context, next), why: found.why });
    next = found.next === null ? null : sourceBit(context.netlist.nodes, found.next);
  }
  return steps;
}

interface Link {
  /** Null: nothing worth a line. */
  readonly why: NeverStep['why'] | null;
  readonly next: Bit | null;
}

function isStill({ waves }: NeverContext, bit: Bit): boolean {
  return waves.changesOf(bit).length === 0;
}

function describe({ names, netlist, places, waves }: NeverContext, bit: Bit): Omit<NeverStep, 'why'> {
  const place = netlist.places[netlist.nodes.place[bit.node]];
  const text = names.nameOf(bit) ?? (place === undefined ? 'a constant' : places.textOf(place));
  return { text, value: digitOf(waves.startOf(bit)), span: place === undefined ? null : places.spanOf(place) };
}

function linkOf(context: NeverContext, bit: Bit): Link {
  const { fixedComparisons, nodes, registers } = context.netlist;
  if (fixedComparisons.some(({ node }) => node === bit.node)) return { why: { kind: 'fixed' }, next: null };
  switch (nodes.op[bit.node]) {
    case Op.constant:
    case Op.zeroExtend:
      return { why: { kind: 'constant' }, next: null };
    case Op.input:
      return { why: inputReason(context, bit), next: null };
    case Op.register:
      return linkOfRegister(context, registers[nodes.aux[bit.node]], bit.bit);
    case Op.equal:
    case Op.notEqual:
    case Op.lessUnsigned:
    case Op.lessSigned:
    case Op.lessEqualUnsigned:
    case Op.lessEqualSigned:
      return linkOfComparison(context, bit);
    default:
      return linkOfLogic(context, bit);
  }
}

function inputReason({ drive, netlist }: NeverContext, { node }: Bit): NeverStep['why'] {
  const held = drive?.inputs.find(({ signal }) => signal === netlist.nodes.aux[node]);
  return { kind: 'input', reason: held === undefined || held.why === null ? null : whyWords(held.why) };
}

/** By what happened at its active edges; a reset at the beginning is not why it stands still later. */
function linkOfRegister(context: NeverContext, register: Register, bit: number): Link {
  const { netlist, places, waves } = context;
  const pin = sourceBit(netlist.nodes, register.clock);
  const edges = Array.from(waves.changesOf(pin))
    .slice(0, mostEdges)
    .filter((edge) => isActiveEdge(context, register, edge));
  if (edges.length === 0) return { why: { kind: 'clock', clock: register.clockText }, next: pin };
  const reasons = edges.map((edge) => heldReasonOf(context, register, bit, edge));
  const free = reasons.filter(({ kind }) => kind !== 'control');
  const [last] = reasons.slice(-1);
  if (free.length === 0 && last.kind === 'control') {
    const control = register.asynchronous.find(({ place }) => sameSpan(places.spanOf(place), last.span));
    return { why: { kind: 'control', control: last.control, active: last.active }, next: control?.control ?? null };
  }
  const disabled = free.find((reason) => reason.kind === 'not-enabled');
  if (disabled !== undefined && free.every(({ kind }) => kind === 'not-enabled')) {
    const regions = register.enables.filter(({ low, width }) => bit >= low && bit < low + width);
    const next = regions.length === 1 ? { node: regions[0].condition, bit: 0 } : null;
    return { why: { kind: 'not-enabled', condition: disabled.condition }, next };
  }
  return { why: { kind: 'same-value' }, next: { node: register.data, bit } };
}

function sameSpan(left: Span, right: Span): boolean {
  return left.file === right.file && left.line === right.line && left.column === right.column;
}

/** Where what is compared stands still itself, that is why; else what it takes in the run. */
function linkOfComparison(context: NeverContext, bit: Bit): Link {
  const { nodes } = context.netlist;
  const first = nodes.first[bit.node];
  const operands = [nodes.pool[first], nodes.pool[first + 1]] as NodeId[];
  const moving = operands.filter((node) => bitsOf(context, node).some((each) => !isStill(context, each)));
  const [subject] = moving;
  if (subject === undefined) {
    const open = operands.flatMap((node) => bitsOf(context, node)).find(({ node }) => nodes.op[node] !== Op.constant);
    return { why: { kind: 'logic' }, next: open ?? null };
  }
  const { more, taken } = takenBy(context, subject);
  return { why: { kind: 'comparison', of: nameOfNode(context, subject), taken, more }, next: null };
}

/** What a vector is in the run, in the order in which it first is. */
function takenBy(context: NeverContext, node: NodeId): { readonly taken: readonly string[]; readonly more: boolean } {
  const { waves } = context;
  const bits = bitsOf(context, node);
  const instants = new Set([0]);
  for (const bit of bits)
    for (const change of Array.from(waves.changesOf(bit)).slice(0, mostEdges)) instants.add(waves.changes.time[change]);
  const values = new Set<string>();
  for (const at of [...instants].sort((left, right) => left - right)) {
    const digits = bits.map((bit) => digitAfter(waves, bit, at)).join('');
    values.add(/^[01]+$/.test(digits) ? String(BigInt(`0b${digits}`)) : digits);
  }
  return { taken: [...values].slice(0, mostTaken), more: values.size > mostTaken };
}

/** Most significant first, through wiring. */
function bitsOf({ netlist: { nodes } }: NeverContext, node: NodeId): readonly Bit[] {
  return Array.from({ length: nodes.width[node] }, (_, index) =>
    sourceBit(nodes, { node, bit: nodes.width[node] - 1 - index }),
  );
}

/** The signal where all of its bits are, else the text. */
function nameOfNode({ names, netlist, places }: NeverContext, node: NodeId): string {
  const found = bitsOf({ netlist } as NeverContext, node).map(
    (bit) => names.nameOf(bit)?.replace(/\[-?\d+\]$/, '') ?? null,
  );
  const [first] = found;
  const place = netlist.places[netlist.nodes.place[node]];
  if (first !== null && found.every((name) => name === first)) return first;
  return place === undefined ? 'what is compared' : places.textOf(place);
}

/** The operand that alone makes the value; where none does, the only one that there is. */
function linkOfLogic(context: NeverContext, bit: Bit): Link {
  const { nodes } = context.netlist;
  const operands = operandsOfBit(nodes, bit).map((each) => sourceBit(nodes, each));
  const digit = (operand: Bit) => (isStill(context, operand) ? digitOf(context.waves.startOf(operand)) : null);
  const named = context.names.nameOf(bit) !== null;
  const why = named ? ({ kind: 'logic' } as const) : null;
  if (nodes.op[bit.node] === Op.mux) {
    const [select, whenOne, whenZero] = operands;
    const chosen = digit(select) === '1' ? whenOne : digit(select) === '0' ? whenZero : null;
    return { why, next: chosen === null ? null : nodes.op[chosen.node] === Op.constant ? select : chosen };
  }
  const level = decides.get(nodes.op[bit.node]);
  const deciding = level === undefined ? undefined : operands.find((operand) => digit(operand) === level);
  return { why, next: deciding ?? (operands.length === 1 ? operands[0] : null) };
}

/** The level of one operand that makes the result, whatever the others are. */
const decides: ReadonlyMap<number, Digit> = new Map([
  [Op.and, '0'],
  [Op.nand, '0'],
  [Op.reduceAnd, '0'],
  [Op.or, '1'],
  [Op.nor, '1'],
  [Op.reduceOr, '1'],
]);

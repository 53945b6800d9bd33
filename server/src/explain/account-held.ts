// Why an edge changed nothing: the reasons for which a register keeps its value, in the order in which hardware decides.

import type { ClockNetwork } from '../clocks/network';
import type { BitNames } from '../netlist/bit-names';
import type { Digit } from '../netlist/four-state';
import type { Bit, EdgeKind, EnableRegion, Netlist, Register } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import type { Waves } from '../predict/waves';
import type { Span } from '../text/place';
import { type Operand, sampledOperands } from './account-operands';
import type { Places } from './places';
import { shortListWords } from './words';
import { digitAfter, digitBefore, digitSampled } from './wave-reading';

export type HeldReason =
  /** The clock changed the other way. */
  | { readonly kind: 'other-edge'; readonly clock: string; readonly edge: EdgeKind; readonly span: Span }
  /** An asynchronous control is active and holds it. */
  | { readonly kind: 'control'; readonly control: string; readonly active: 'high' | 'low'; readonly span: Span }
  /** None of the conditions under which it is assigned is met. */
  | {
      readonly kind: 'not-enabled';
      readonly condition: string;
      readonly operands: readonly Operand[];
      readonly span: Span;
    }
  /** It sampled the value that it had. */
  | { readonly kind: 'same-value'; readonly value: Digit; readonly operands: readonly Operand[]; readonly span: Span };

interface Context {
  readonly netlist: Netlist;
  readonly network: ClockNetwork;
  readonly names: BitNames;
  readonly places: Places;
  readonly waves: Waves;
}

/** `edge`: index of the change of the register's clock pin; `bit`: which bit of the register is asked about. */
export function heldReasonOf(context: Context, register: Register, bit: number, edge: number): HeldReason {
  const { netlist, places, waves } = context;
  const at = waves.changes.time[edge];
  if (!isActiveEdge(context, register, edge)) {
    return {
      kind: 'other-edge',
      clock: register.clockText,
      edge: register.edge,
      span: places.spanOf(register.clockPlace),
    };
  }
  const control = register.asynchronous.find(
    ({ active, control: pin }) =>
      digitAfter(waves, sourceBit(netlist.nodes, pin), at) === (active === 'high' ? '1' : '0'),
  );
  if (control !== undefined) {
    const signal = context.names.canonicalNameOf(control.control) ?? places.textOf(control.place);
    return { kind: 'control', control: signal, active: control.active, span: places.spanOf(control.place) };
  }
  const regions = register.enables.filter((enable) => covers(enable, bit));
  const conditions = regions.map(({ condition }) => ({ node: condition, bit: 0 }));
  if (regions.length > 0 && conditions.every((condition) => sampled(context, condition, at) === '0')) {
    return {
      kind: 'not-enabled',
      condition: shortListWords(
        regions.map(({ text }) => text),
        3,
      ),
      operands: distinct(conditions.flatMap((condition) => sampledOperands(context, condition, at))),
      span: places.spanOf(regions[0].place),
    };
  }
  const data = { node: register.data, bit };
  const operands = sampledOperands(context, data, at);
  return { kind: 'same-value', value: sampled(context, data, at), operands, span: places.spanOf(register.samplePlace) };
}

/** Whether this change of the clock pin can be the edge that the register acts on; from or to unknown it may be. */
export function isActiveEdge(
  { netlist, waves }: Pick<Context, 'netlist' | 'waves'>,
  register: Register,
  edge: number,
): boolean {
  const pin = sourceBit(netlist.nodes, register.clock);
  const before = digitBefore(waves, pin, edge);
  const after = digitAfter(waves, pin, waves.changes.time[edge]);
  const [from, to] = register.edge === 'rising' ? ['0', '1'] : ['1', '0'];
  return before !== to && after !== from && before !== after;
}

function distinct(operands: readonly Operand[]): readonly Operand[] {
  return [...new Map(operands.map((operand) => [operand.signal, operand])).values()].slice(0, mostOperands);
}

/** As many as a sentence can hold. */
const mostOperands = 8;

function covers({ low, width }: EnableRegion, bit: number): boolean {
  return bit >= low && bit < low + width;
}

function sampled({ netlist, waves }: Context, bit: Bit, at: number): Digit {
  return digitSampled(waves, sourceBit(netlist.nodes, bit), at);
}

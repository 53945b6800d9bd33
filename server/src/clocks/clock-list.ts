// The clocks as a list: every bit that clocks a register or opens a latch, and the named bits that it is made from, in
// order of place, numbered. Nameless parts of an expression are looked through.

import { bitKey } from '../netlist/bit-key';
import type { Bit } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Place } from '../text/place';
import { compareText } from '../text/compare';
import { constantLevel, type Context, isNoGate, opOf, placeOfNode, sourceOf } from './context';
import { controlName } from './launches';
import type { MemoWalk } from './memo-walk';
import { comparePlaces, type Root } from './network';
import type { Pace } from './pace';
import type { ClockWalk } from './clock-walk';
import { isShared } from './walk-back';

export interface ListedClock {
  readonly walk: ClockWalk;
  readonly name: string;
  readonly place: Place;
  /** The listed clocks it is made from, nearest first. */
  readonly from: readonly Bit[];
  /** The nameless gates between it and those, itself first: what belongs to it as a gate. */
  readonly parts: readonly ClockWalk[];
}

export interface Pin {
  readonly bit: Bit;
  readonly written: string | null;
}

/** In order of place, then of bit. */
export function* listClocks(
  context: Context,
  walk: MemoWalk<ClockWalk>,
  pins: readonly Pin[],
  pace: Pace,
): Generator<void, ListedClock[]> {
  const written = new Map<number, string>();
  for (const { bit, written: text } of [...pins].reverse()) if (text !== null) written.set(bitKey(bit), text);
  const isPin = new Set(pins.map(({ bit }) => bitKey(bit)));
  const isListed = (bit: Bit) => isPin.has(bitKey(bit)) || bitName(context, bit) !== null || isRoot(walk(bit));

  const listed = new Map<number, ListedClock>();
  const waiting = pins.map(({ bit }) => bit);
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    const key = bitKey(bit);
    if (listed.has(key)) continue;
    const { from, parts } = originsOf(walk, bit, isListed);
    const name = bitName(context, bit) ?? written.get(key) ?? namelessName(context, bit);
    listed.set(key, { walk: walk(bit), name, place: placeOfBit(context, bit), from, parts });
    for (const origin of from) waiting.push(origin);
    if (pace.spend(5)) yield;
  }
  return [...listed.values()].sort(
    (left, right) => comparePlaces(left.place, right.place) || bitKey(left.walk.bit) - bitKey(right.walk.bit),
  );
}

/** Every clock pin of a register and gate of a latch that has one, wiring looked through, in order of id. */
export function clockPins(context: Context): Pin[] {
  const { registers, latches } = context.netlist;
  return [
    ...registers.map(({ clock, clockText }) => ({ bit: sourceOf(context, clock), written: clockText })),
    ...latches
      .map(({ gate }) => ({ bit: sourceOf(context, gate), written: null }))
      .filter(({ bit }) => !isNoGate(context, bit)),
  ];
}

function originsOf(
  walk: MemoWalk<ClockWalk>,
  bit: Bit,
  isListed: (bit: Bit) => boolean,
): { from: Bit[]; parts: ClockWalk[] } {
  const from: Bit[] = [];
  const parts = [walk(bit)];
  const seen = new Set([bitKey(bit)]);
  const waiting = [...walk(bit).from].reverse();
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (seen.has(bitKey(next))) continue;
    seen.add(bitKey(next));
    if (isListed(next)) {
      from.push(next);
      continue;
    }
    parts.push(walk(next));
    for (const origin of [...walk(next).from].reverse()) waiting.push(origin);
  }
  return { from, parts };
}

function bitName(context: Context, bit: Bit): string | null {
  return context.names.canonicalNameOf(bit);
}

/** A constant, or by what it is computed from; logic that nothing with a name reaches is as good as unknown. */
function namelessName(context: Context, bit: Bit): string {
  const level = constantLevel(context, bit);
  if (level !== null) return `1'b${level}`;
  return controlName(context, bit) || "1'bx";
}

/** Declaration of what can be declared, else the expression. */
export function placeOfBit(context: Context, bit: Bit): Place {
  const { netlist, nodes } = context;
  const aux = nodes.aux[bit.node];
  switch (opOf(context, bit)) {
    case Op.register:
      return netlist.registers[aux].place;
    case Op.latch:
      return netlist.latches[aux].place;
    case Op.input:
    case Op.undriven:
      return netlist.signals[aux].place;
    case Op.blackBox:
      return netlist.blackBoxes[netlist.blackBoxOutputs[aux].box].place;
    default:
      return placeOfNode(context, bit.node);
  }
}

function isRoot({ bit, roots }: ClockWalk): boolean {
  return roots.length === 1 && roots[0] === bitKey(bit);
}

/** The roots among the clocks, in order of place, then name. Every root that a clock comes from is listed itself. */
export function listRoots(context: Context, clocks: readonly ListedClock[]): Root[] {
  return clocks
    .filter(({ walk }) => isRoot(walk))
    .map(({ walk, name, place }): Root => ({ bit: walk.bit, name, kind: rootKind(context, walk.bit), place }))
    .sort((left, right) => comparePlaces(left.place, right.place) || compareText(left.name, right.name));
}

function rootKind(context: Context, bit: Bit): Root['kind'] {
  if (isShared(context, bit)) return 'inout';
  switch (opOf(context, bit)) {
    case Op.input:
      return 'port';
    case Op.blackBox:
      return 'blackBox';
    case Op.latch:
      return 'latch';
    default:
      return 'undriven';
  }
}

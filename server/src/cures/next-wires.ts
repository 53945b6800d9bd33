// Next values that are used by name: a wire for each, written before the process that makes the register.

import type { EdgeKind, Register } from '../netlist/netlist';
import { declaredIndex } from '../netlist/bit-names';
import { clockedForm } from './clocked-form';
import type { CureContext } from './cure';
import type { Place } from '../text/place';
import { inserting, type UnitEdit } from './edits';
import { edgeText, isOperand, nextText, nextValueOf } from './next-value';
import { rangeText } from './declared';
import { freeName, indentationAt, isPlainName, lineEndOf } from './text';

export interface NextWires {
  /** A name or number for the next value of a register that one process makes whole; null where it is not read. */
  of(register: Register): string | null;
  /** What declares the wires. */
  edits(): readonly UnitEdit[];
}

/** Longer texts are no help to whoever must read them. */
const longestText = 600;

/** `before`: an offset that a wire must stand before, where something there uses it. */
export function createNextWires(
  context: CureContext,
  { unit }: Pick<Place, 'unit'>,
  before = Number.POSITIVE_INFINITY,
): NextWires {
  const { text } = context.reading.units[unit];
  const known = new Map<string, string>();
  const written: UnitEdit[] = [];
  return {
    of(register) {
      const signal = context.facts.netlist.signals[register.signal];
      const form = clockedForm(context, register);
      if (form === null || form.unit !== unit) return null;
      const found = known.get(signal.localName);
      if (found !== undefined) return found;
      const next = nextValueOf(text, form, signal.localName);
      if (next === null || register.width !== signal.width || next.tree.kind === 'held') return null;
      const value = nextText(next);
      if (value.length > longestText) return null;
      if (isPlainName(value)) {
        known.set(signal.localName, value);
        return value;
      }
      const name = freeName(text, `${signal.localName}_next`);
      const line = `wire ${rangeText(context, unit, signal.localName)}${name} = ${flat(value)};`;
      const at = Math.min(before, form.process.at.start);
      written.push(inserting(unit, at, `${line}${lineEndOf(text)}${indentationAt(text, at)}`));
      known.set(signal.localName, name);
      return name;
    },
    edits: () => written,
  };
}

/** The condition under which a bit of a register (0 = its lowest) is about to rise or fall at its own clock; null: not told. */
export function aboutToMove(
  context: CureContext,
  wires: NextWires,
  register: Register,
  bit: number,
  edge: EdgeKind,
): string | null {
  const { netlist } = context.facts;
  const signal = netlist.signals[register.signal];
  const form = clockedForm(context, register);
  if (form === null) return null;
  const { text } = context.reading.units[form.unit];
  const index = signal.scalar ? null : declaredIndex(signal, register.low + bit);
  const whole = signal.scalar ? signal.localName : `${signal.localName}[${index}]`;
  const alone = register.width === 1 ? nextValueOf(text, form, whole) : null;
  if (alone !== null && alone.tree.kind !== 'held') return edgeText(alone, null, edge);
  if (register.width !== signal.width || signal.scalar) return null;
  const next = nextValueOf(text, form, signal.localName);
  const plain = next !== null && signal.lsb === 0 && signal.msb > 0 ? edgeText(next, index, edge) : null;
  if (plain !== null) return plain;
  const wire = wires.of(register);
  if (wire === null || !isOperand(`${wire}[${index}]`)) return null;
  return edge === 'rising' ? `~${whole} & ${wire}[${index}]` : `${whole} & ~${wire}[${index}]`;
}

function flat(text: string): string {
  return text.replace(/\s*\n\s*/g, ' ');
}

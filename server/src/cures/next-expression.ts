// An expression as it will be after the next clock edge: each register in it by its next value, each net that is plain logic
// of them by what it is made of.

import type { Expression } from '../syntax/tables';
import { nextToken, wordOf } from '../syntax/tokens';
import type { Register } from '../netlist/netlist';
import { definitionOf, moduleOf } from './declared';
import type { CureContext } from './cure';
import type { NextWires } from './next-wires';

/** Nets that are made of nets. */
const mostDepth = 8;

export interface NextExpression {
  readonly text: string;
  /** Registers in it, each once. */
  readonly registers: readonly Register[];
}

/** Null where something in it is neither a register that is read off whole, nor logic of such, nor a constant; `kept` stays. */
export function nextExpression(
  context: CureContext,
  wires: NextWires,
  unit: number,
  whole: Pick<Expression, 'at'>,
  kept: readonly string[] = [],
): NextExpression | null {
  const registers = new Set<Register>();
  const made = substituted(context, wires, unit, whole, { kept, registers, depth: 0 });
  return made === null ? null : { text: made, registers: [...registers] };
}

interface Substitution {
  readonly kept: readonly string[];
  readonly registers: Set<Register>;
  readonly depth: number;
}

function substituted(
  context: CureContext,
  wires: NextWires,
  unit: number,
  { at }: Pick<Expression, 'at'>,
  { depth, kept, registers: used }: Substitution,
): string | null {
  const module = moduleOf(context, unit);
  if (module === null || depth > mostDepth) return null;
  const { text } = context.reading.units[unit];
  let made = '';
  let from: number = at.start;
  for (const { end, name, start } of namesIn(text, at.start, at.end)) {
    const next = nextOf(name);
    if (next === null) return null;
    made += text.slice(from, start) + next;
    from = end;
  }
  return made + text.slice(from, at.end);

  function nextOf(name: string): string | null {
    const registers = kept.includes(name) ? null : registersNamed(context, unit, name);
    if (registers === null) return name;
    if (registers.length === 1) {
      used.add(registers[0]);
      return wires.of(registers[0]);
    }
    const definition = registers.length === 0 && module !== null ? definitionOf(module, name) : null;
    const next =
      definition === null
        ? null
        : substituted(context, wires, unit, definition.value, { depth: depth + 1, kept, registers: used });
    return next === null ? null : `(${next})`;
  }
}

/** The registers that hold a signal's bits; null where the name is no signal: a parameter. */
function registersNamed({ facts: { netlist } }: CureContext, unit: number, name: string): readonly Register[] | null {
  const signals = netlist.signals.filter(({ localName, place }) => localName === name && place.unit === unit);
  if (signals.length === 0) return null;
  return netlist.registers.filter(({ signal }) => signal === signals[0].id);
}

export interface NameAt {
  readonly name: string;
  readonly start: number;
  readonly end: number;
}

/** Names in a stretch, but for members and scopes. */
export function namesIn(text: string, start: number, end: number): readonly NameAt[] {
  const found: NameAt[] = [];
  let before = '';
  for (
    let token = nextToken(text, start);
    token.kind !== 'end' && token.start < end;
    token = nextToken(text, token.end)
  ) {
    const word = wordOf(text, token);
    if (token.kind === 'name' && before !== '.' && before !== '::')
      found.push({ name: word, start: token.start, end: token.end });
    before = word;
  }
  return found;
}

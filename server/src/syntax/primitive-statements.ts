// Rows of a primitive's table as the items of one case statement.

import type { PrimitiveRow } from './primitive-text';
import type { At, CaseItem, Expression, Named, Statement } from './tables';

export interface CaseFrame {
  readonly at: At;
  readonly output: Named;
  readonly inputs: readonly Named[];
  readonly blocking: boolean;
}

export function hasEdge({ inputs }: PrimitiveRow): boolean {
  return inputs.some(isEdge);
}

export function isEdge(symbol: string): boolean {
  return symbol.length === 2 || /^[rfpn*]$/.test(symbol);
}

/** A row for unknown inputs. */
export function isUnknownRow({ inputs, state }: PrimitiveRow): boolean {
  return inputs.includes('x') || state === 'x';
}

/** `rows`: levels only, one per input. What no row says is x (8.1.4). */
export function caseOver({ at, blocking, inputs, output }: CaseFrame, rows: readonly PrimitiveRow[]): Statement {
  const assign = (digit: string, place: At): Statement => ({
    kind: 'assign',
    at: place,
    blocking,
    target: nameOf(output),
    value: digitOf(digit, place),
    delay: null,
    event: null,
  });
  const items = rows.map((row): CaseItem => {
    const body: Statement = row.next === '-' ? { kind: 'null', at: row.at } : assign(row.next, row.at);
    return { at: row.at, labels: [labelOf(row)], isDefault: false, body };
  });
  const otherwise: CaseItem = { at, labels: [], isDefault: true, body: assign('x', at) };
  const parts = inputs.map(nameOf);
  const first = inputs.reduce((left, right) => (right.start < left.start ? right : left));
  const last = inputs.reduce((left, right) => (right.end > left.end ? right : left));
  const all = { start: first.start, end: last.end };
  const selector: Expression = parts.length === 1 ? parts[0] : { kind: 'concat', at: all, parts };
  return { kind: 'case', at, match: 'casez', qualifier: null, selector, items: [...items, otherwise] };
}

/** Either level, known or not, is a digit that matches anything. */
function labelOf({ at, inputs }: PrimitiveRow): Expression {
  const digits = inputs.map((symbol) => (symbol === '?' || symbol === 'b' ? 'z' : symbol)).join('');
  return { kind: 'number', at, size: inputs.length, signed: false, base: 'b', digits };
}

export function nameOf(name: Named): Expression {
  return { kind: 'name', at: name, name: name.name };
}

export function digitOf(digit: string, at: At): Expression {
  return { kind: 'number', at, size: 1, signed: false, base: 'b', digits: digit };
}

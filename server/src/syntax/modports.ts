// Modports (IEEE 1800-2017 25.5), told from their words: names with a direction, with an expression of their own, and the
// functions and tasks that may be called. Clocking blocks are known by name only.

import { atOf, type ItemsRead, namedAt, unexpected } from './module-words';
import { portExpressionOf } from './port-expression';
import { type Remark, remark } from './remark';
import type { Expression, ModportItem, ModportMember } from './tables';
import { type Token, wordOf } from './tokens';

/** `line`: from the word modport to its semicolon. */
export function readModports(text: string, line: readonly Token[]): ItemsRead {
  const walk: Walk = { text, line, index: 1, remarks: [] };
  const items: ModportItem[] = [];
  do {
    const item = readModport(walk);
    if (item === null) {
      const failing = line[Math.min(walk.index, line.length - 1)];
      return { items, remarks: [...walk.remarks, unexpected(text, failing)] };
    }
    items.push(item);
  } while (take(walk, ','));
  return { items, remarks: walk.remarks };
}

interface Walk {
  readonly text: string;
  readonly line: readonly Token[];
  index: number;
  readonly remarks: Remark[];
}

function word({ text, line, index }: Walk): string {
  return index < line.length ? wordOf(text, line[index]) : '';
}

function take(walk: Walk, expected: string): boolean {
  if (word(walk) !== expected) return false;
  walk.index += 1;
  return true;
}

/** name ( members ) */
function readModport(walk: Walk): ModportItem | null {
  const first = walk.line[walk.index];
  if (first?.kind !== 'name') return null;
  walk.index += 1;
  if (!take(walk, '(')) return null;
  const members: ModportMember[] = [];
  let role: ModportMember['role'] | 'clocking' = 'inout';
  while (word(walk) !== ')') {
    const given = roles.get(word(walk));
    if (given !== undefined) walk.index += 1;
    role = given ?? role;
    const member = readMember(walk, role);
    if (member === null) return null;
    if (member !== 'passed over') members.push(member);
    if (!take(walk, ',') && word(walk) !== ')') return null;
  }
  walk.index += 1;
  const at = atOf(first, walk.line[walk.index - 1]);
  return { kind: 'modport', at, name: namedAt(walk.text, first), members };
}

function readMember(walk: Walk, role: ModportMember['role'] | 'clocking'): ModportMember | 'passed over' | null {
  const first = walk.line[walk.index];
  if (role === 'import' || role === 'export') return readSubroutine(walk, role);
  const isNamed = take(walk, '.');
  const token = walk.line[walk.index];
  if (token?.kind !== 'name') return null;
  walk.index += 1;
  const name = namedAt(walk.text, token);
  if (role === 'clocking') {
    walk.remarks.push(remark('construct', { what: 'clocking block in a modport' }, name));
    return 'passed over';
  }
  if (!isNamed) return { at: name, name, role, expression: null };
  const expression = readExpression(walk);
  return expression === null ? null : { at: atOf(first, walk.line[walk.index - 1]), name, role, expression };
}

/** (a), (a[3:0]) or ({a, b}) */
function readExpression(walk: Walk): Expression | null {
  const inside = parenthesized(walk);
  if (inside === null || inside.length === 0) return null;
  const expression = portExpressionOf(walk.text, inside);
  if (expression !== null) return expression;
  const at = atOf(inside[0], inside[inside.length - 1]);
  walk.remarks.push(remark('construct', { what: 'modport expression of this form' }, at));
  return { kind: 'hole', at };
}

/** A name alone, or with `function`, a type and arguments as in a declaration. */
function readSubroutine(walk: Walk, role: 'import' | 'export'): ModportMember | null {
  const first = walk.line[walk.index];
  let name: Token | null = null;
  while (walk.index < walk.line.length && word(walk) !== ',' && word(walk) !== ')') {
    const token = walk.line[walk.index];
    if (word(walk) === '(' || word(walk) === '[') {
      if (parenthesized(walk) === null) return null;
    } else {
      if (token.kind === 'name') name = token;
      walk.index += 1;
    }
  }
  if (name === null) return null;
  const at = atOf(first, walk.line[walk.index - 1]);
  return { at, name: namedAt(walk.text, name), role, expression: null };
}

/** What stands between a bracket and the one that closes it; null where none does. */
function parenthesized(walk: Walk): readonly Token[] | null {
  if (word(walk) !== '(' && word(walk) !== '[') return null;
  const first = walk.index;
  let depth = 0;
  for (; walk.index < walk.line.length; walk.index += 1) {
    if (word(walk) === '(' || word(walk) === '[') depth += 1;
    if (word(walk) === ')' || word(walk) === ']') depth -= 1;
    if (depth === 0) break;
  }
  if (depth !== 0) return null;
  walk.index += 1;
  return walk.line.slice(first + 1, walk.index - 1);
}

const roles: ReadonlyMap<string, ModportMember['role'] | 'clocking'> = new Map([
  ['input', 'input'],
  ['output', 'output'],
  ['inout', 'inout'],
  // A reference is read and written: to the signals behind it that is both directions (25.5.4).
  ['ref', 'inout'],
  ['import', 'import'],
  ['export', 'export'],
  ['clocking', 'clocking'],
]);

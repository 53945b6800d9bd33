// What a register holds after its next clock edge, as text made of what stands in its process: conditions become
// conditional operators, the last assignment wins. And when one of its bits is about to rise or fall. Whether the text
// says what the process does is not decided here: whoever uses it tries it.

import type { Expression, Statement } from '../syntax/tables';
import { assignmentsIn, type ClockedForm } from './clocked-form';

export interface NextValue {
  /** `q` or, where the process assigns one bit, `q[2]`: as written. */
  readonly target: string;
  readonly tree: Next;
}

type Next =
  /** It stays as it is. */
  | { readonly kind: 'held' }
  | { readonly kind: 'value'; readonly value: Expression; readonly text: string }
  | { readonly kind: 'choice'; readonly condition: string; readonly then: Next; readonly else: Next };

const held: Next = { kind: 'held' };

/** Null where the process does it in a form that is not read: loops, blocking assignments, parts of the target. */
export function nextValueOf(text: string, { body }: ClockedForm, target: string): NextValue | null {
  if (assignmentsIn(body).some(({ blocking, event }) => blocking || event !== null)) return null;
  const tree = follow(text, body, target, held);
  return tree === null ? null : { target, tree };
}

function follow(text: string, statement: Statement, target: string, before: Next): Next | null {
  const at = (expression: Expression) => text.slice(expression.at.start, expression.at.end);
  switch (statement.kind) {
    case 'null':
    case 'call':
      return before;
    case 'block': {
      if (statement.declarations.length > 0 || statement.parallel) return null;
      let now: Next | null = before;
      for (const one of statement.body) now = now === null ? null : follow(text, one, target, now);
      return now;
    }
    case 'assign':
      if (at(statement.target) === target) return { kind: 'value', value: statement.value, text: at(statement.value) };
      return isPartOf(statement.target, target) ? null : before;
    case 'if': {
      const then = follow(text, statement.then, target, before);
      const other = statement.else === null ? before : follow(text, statement.else, target, before);
      return then === null || other === null ? null : choice(at(statement.condition), then, other);
    }
    case 'case': {
      if (statement.match !== 'case') return null;
      const fallback = statement.items.find(({ isDefault }) => isDefault);
      let now = fallback === undefined ? before : follow(text, fallback.body, target, before);
      for (const { body, isDefault, labels } of [...statement.items].reverse()) {
        const then = isDefault ? null : follow(text, body, target, before);
        if (isDefault) continue;
        if (then === null || now === null) return null;
        const selector = operandText(at(statement.selector));
        now = choice(labels.map((label) => `${selector} == ${operandText(at(label))}`).join(' || '), then, now);
      }
      return now;
    }
    default:
      return null;
  }
}

function choice(condition: string, then: Next, other: Next): Next {
  return then === other ? then : { kind: 'choice', condition, then, else: other };
}

/** Whether an assignment may reach bits of the target without being to all of it; a concatenation may hold it anywhere. */
function isPartOf(written: Expression, target: string): boolean {
  const name = target.replace(/\[.*$/s, '');
  if (written.kind === 'name') return written.name === name;
  if (written.kind !== 'index' && written.kind !== 'range') return written.kind !== 'hole';
  const isOther = target !== name && written.kind === 'index' && written.index.kind === 'number';
  return !isOther && isPartOf(written.base, name);
}

/** The whole value, as one expression. */
export function nextText({ target, tree }: NextValue): string {
  const write = (next: Next): string => {
    if (next.kind === 'held') return target;
    if (next.kind === 'value') return next.text;
    const other = next.else.kind === 'choice' ? write(next.else) : operandText(write(next.else));
    return `${operandText(next.condition)} ? ${operandText(write(next.then))} : ${other}`;
  };
  return write(tree);
}

/** In parentheses, but for a name, a select, a number, or one of these inverted. */
export function operandText(text: string): string {
  return isOperand(text) ? text : `(${text})`;
}

export function isOperand(text: string): boolean {
  return /^[~!&|]?[A-Za-z_][\w$]*(\[[\w:$ ]+\])?$/.test(text) || /^[\w']+$/.test(text) || isWrapped(text);
}

function isWrapped(text: string): boolean {
  if (!text.startsWith('(') || !text.endsWith(')')) return false;
  let depth = 0;
  for (const [index, letter] of [...text].entries()) {
    if (letter === '(') depth += 1;
    if (letter === ')') depth -= 1;
    if (depth === 0 && index < text.length - 1) return false;
  }
  return true;
}

/**
 * When a register of one bit, or one bit of a counter, is about to rise or fall; null where only the whole next value
 * tells. `bit`: null for a register of one bit, else its index, the lowest being 0.
 */
export function edgeText(next: NextValue, bit: number | null, edge: 'rising' | 'falling'): string | null {
  const write = (tree: Next): string | null | 'never' => {
    if (tree.kind === 'held') return 'never';
    if (tree.kind === 'value') return stepText(next.target, tree.value, tree.text, bit, edge);
    const [then, other] = [write(tree.then), write(tree.else)];
    if (then === null || other === null) return null;
    if (then === 'never' && other === 'never') return 'never';
    if (other === 'never') return joined([tree.condition, then]);
    if (then === 'never') return joined([invertedText(tree.condition), other]);
    return `${operandText(tree.condition)} ? ${operandText(then)} : ${operandText(other)}`;
  };
  const text = write(next.tree);
  return text === 'never' ? null : text;
}

function stepText(
  target: string,
  value: Expression,
  text: string,
  bit: number | null,
  edge: 'rising' | 'falling',
): string | null | 'never' {
  const now = bit === null ? target : `${target}[${bit}]`;
  const before = edge === 'rising' ? `~${now}` : now;
  if (value.kind === 'number' && /^[0-9]+$/.test(value.digits)) {
    const digits = BigInt(
      value.base === 'b'
        ? `0b${value.digits}`
        : value.base === 'h'
          ? `0x${value.digits}`
          : value.base === 'o'
            ? `0o${value.digits}`
            : value.digits,
    );
    const level = (digits >> BigInt(bit ?? 0)) & 1n;
    return (level === 1n) === (edge === 'rising') ? before : 'never';
  }
  if (bit === null) {
    const isToggle = value.kind === 'unary' && (value.operator === '~' || value.operator === '!');
    if (isToggle && new RegExp(`^[~!]\\s*${escaped(target)}$`).test(text)) return before;
    return edge === 'rising' ? joined([before, text]) : joined([before, invertedText(text)]);
  }
  if (value.kind !== 'binary' || !new RegExp(`^${escaped(target)}\\s*[+-]\\s*(\\d*'[bdh])?0*1$`).test(text))
    return null;
  const isUp = value.operator === '+';
  const lower = (most: number) => (most === 0 ? `${target}[0]` : `${target}[${most}:0]`);
  const all = (most: number) =>
    isUp ? (most === 0 ? lower(0) : `&${lower(most)}`) : most === 0 ? `~${lower(0)}` : `~|${lower(most)}`;
  const turnsWithOwn = isUp === (edge === 'falling');
  if (turnsWithOwn) return all(bit);
  return bit === 0 ? before : `${before} & ${all(bit - 1)}`;
}

export function invertedText(text: string): string {
  if (/^[~!][A-Za-z_][\w$]*(\[[\w:$ ]+\])?$/.test(text)) return text.slice(1);
  return `!${operandText(text)}`;
}

/** All of them; plain one-bit operands with `&`. */
export function joined(terms: readonly string[]): string {
  const isBit = (text: string) => /^[~!]?[A-Za-z_][\w$]*(\[\w+\])?$/.test(text);
  if (terms.length === 1) return terms[0];
  const isPlain = terms.every((term) => term.split(' & ').every(isBit));
  return isPlain ? terms.join(' & ') : terms.map(operandText).join(' && ');
}

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}

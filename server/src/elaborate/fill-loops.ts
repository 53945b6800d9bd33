// Loops that give every word of a stretch of a memory one value: `for (i = 0; i < 65536; i = i + 1) m[i] <= 0;`. Told from
// their form, so that they cost one step however many words there are. Any other loop is unrolled.

import type { Expression, Statement } from '../syntax/tables';
import { integerOf } from './constant-value';
import type { ExpressionContext } from './expression-context';
import { type ArrayEntity, type ArrayMemory, lookUp } from './scope';

type ForLoop = Extract<Statement, { kind: 'for' }>;
type Assignment = Extract<Statement, { kind: 'assign' }>;

export interface FillLoop {
  readonly array: ArrayEntity;
  readonly memory: ArrayMemory;
  readonly assignment: Assignment;
  /** Offsets of words: [from, until). */
  readonly from: number;
  readonly until: number;
  /** What the loop's variable is afterwards. */
  readonly last: number;
}

/** Null for every other loop, and for one of few turns. `context`: inside the loop. */
export function fillLoopOf(context: ExpressionContext, loop: Statement): FillLoop | null {
  if (loop.kind !== 'for' || loop.variable.kind !== 'name') return null;
  const { name } = loop.variable;
  const assignment = onlyAssignment(loop.body);
  const bounds = boundsOf(context, loop, name);
  if (assignment === null || bounds === null || bounds.until - bounds.from <= fewTurns) return null;
  const { target, value, delay, event } = assignment;
  if (delay !== null || event !== null || mentions(value, name)) return null;
  if (target.kind !== 'index' || target.base.kind !== 'name' || !isName(target.index, name)) return null;
  const array = lookUp(context.scope, target.base.name);
  if (array?.kind !== 'array' || array.memory === null || array.dimensions.length !== 1) return null;
  const [{ first, size }] = array.dimensions;
  if (bounds.from < first || bounds.until > first + size) return null;
  return {
    array,
    memory: array.memory,
    assignment,
    from: bounds.from - first,
    until: bounds.until - first,
    last: bounds.until,
  };
}

/** Up to here loops are unrolled: then an expression that fits no form costs nothing either. */
const fewTurns = 16;

function onlyAssignment(body: Statement): Assignment | null {
  let statement = body;
  while (statement.kind === 'block' && !statement.parallel && statement.body.length === 1) [statement] = statement.body;
  return statement.kind === 'assign' ? statement : null;
}

/** Of `i = a; i < b` or `i <= b`; `i = i + 1`. */
function boundsOf(context: ExpressionContext, { start, condition, step }: ForLoop, name: string) {
  if (condition.kind !== 'binary' || !isName(condition.left, name) || !countsUp(context, step, name)) return null;
  const { operator } = condition;
  const [from, end] = [start, condition.right].map((expression) => integerIn(context, expression));
  if (from === null || end === null || (operator !== '<' && operator !== '<=')) return null;
  return { from, until: operator === '<' ? end : end + 1 };
}

function countsUp(context: ExpressionContext, step: Statement, name: string): boolean {
  if (step.kind !== 'assign' || !isName(step.target, name)) return false;
  const { value } = step;
  if (value.kind !== 'binary' || value.operator !== '+') return false;
  return isName(value.left, name) && integerIn(context, value.right) === 1;
}

function integerIn(context: ExpressionContext, expression: Expression): number | null {
  const value = context.constant(expression);
  return value === null ? null : integerOf(value);
}

function isName(expression: Expression, name: string): boolean {
  return expression.kind === 'name' && expression.name === name;
}

/** Any name counts, wherever it stands; a call may read what it likes. */
function mentions(expression: Expression, name: string): boolean {
  const waiting: object[] = [expression];
  for (let part = waiting.pop(); part !== undefined; part = waiting.pop()) {
    if ('kind' in part && part.kind === 'call') return true;
    if ('kind' in part && part.kind === 'name' && 'name' in part && part.name === name) return true;
    for (const value of Object.values(part)) if (typeof value === 'object' && value !== null) waiting.push(value);
  }
  return false;
}

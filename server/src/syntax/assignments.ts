// Assignments wherever they stand: blocking, nonblocking, `+=` and its kin, `++`, the start and step of a loop.
// Those with an operator are given as the plain assignment they stand for (IEEE 1800-2017 11.4.1, 11.4.2).

import { atOf, childOf, childrenOf, kindOf, none, unwrap } from './flat-tree';
import { readEventControl } from './events';
import { readExpression } from './expressions';
import { plainDecimal } from './numbers';
import { type Reader, textOf } from './reader';
import type { At, BinaryOperator, Expression, Statement } from './tables';
import { readDelay } from './types';

/** Null where the node is no assignment that the tables can hold. */
export function readAssignment(reader: Reader, node: number): Statement | null {
  const inner = unwrap(reader.tree, node);
  const parts = childrenOf(reader.tree, inner);
  switch (kindOf(reader.tree, inner)) {
    case 'operator_assignment':
    case 'genvar_iteration':
      return parts.length === 3 ? readOperatorAssignment(reader, inner) : readStep(reader, inner);
    case 'inc_or_dec_expression':
      return readStep(reader, inner);
    case 'variable_assignment':
    case 'nonblocking_assignment':
    case 'blocking_assignment':
      return readTimedAssignment(reader, inner);
    default:
      return null;
  }
}

function readOperatorAssignment(reader: Reader, node: number): Statement {
  const [left, sign, right] = childrenOf(reader.tree, node);
  const at = atOf(reader.tree, node);
  const target = readExpression(reader, left);
  const value = readExpression(reader, right);
  const operator = textOf(reader, sign).slice(0, -1);
  if (operator === '') return plainAssignment(at, target, value);
  return plainAssignment(at, target, {
    kind: 'binary',
    at,
    operator: operator as BinaryOperator,
    left: target,
    right: value,
  });
}

/** i++, ++i, i--, --i */
function readStep(reader: Reader, node: number): Statement {
  const [first, second] = childrenOf(reader.tree, node);
  const firstIsSign = /^(\+\+|--)$/.test(textOf(reader, first));
  const [sign, operand] = firstIsSign ? [first, second] : [second, first];
  const at = atOf(reader.tree, node);
  const target = readExpression(reader, operand);
  const operator = textOf(reader, sign) === '++' ? '+' : '-';
  const one = plainDecimal(atOf(reader.tree, sign), '1');
  return plainAssignment(at, target, { kind: 'binary', at, operator, left: target, right: one });
}

/** target = value, with a delay or an event before the value. Null for `new` and for repeat (n) @(…). */
function readTimedAssignment(reader: Reader, node: number): Statement | null {
  const parts = childrenOf(reader.tree, node);
  const timing = childOf(reader.tree, node, 'delay_or_event_control');
  if (parts.length !== (timing === none ? 3 : 4) || isRepeated(reader, timing)) return null;
  const value = parts[parts.length - 1];
  if (kindOf(reader.tree, value) !== 'expression' && kindOf(reader.tree, value) !== 'assignment_pattern') return null;
  return {
    kind: 'assign',
    at: atOf(reader.tree, node),
    blocking: textOf(reader, parts[1]) === '=',
    ...withoutStream(readExpression(reader, parts[0]), readExpression(reader, value)),
    ...readTiming(reader, timing),
  };
}

type Timing = Pick<Extract<Statement, { kind: 'assign' }>, 'delay' | 'event'>;

function readTiming(reader: Reader, timing: number): Timing {
  if (timing === none) return { delay: null, event: null };
  const delay = childOf(reader.tree, timing, 'delay_control');
  if (delay !== none) return { delay: readDelay(reader, delay), event: null };
  return { delay: null, event: readEventControl(reader, childOf(reader.tree, timing, 'event_control')) };
}

function isRepeated(reader: Reader, timing: number): boolean {
  return timing !== none && childOf(reader.tree, timing, 'repeat') !== none;
}

function plainAssignment(at: At, target: Expression, value: Expression): Statement {
  return { kind: 'assign', at, blocking: true, ...withoutStream(target, value), delay: null, event: null };
}

/** A stream on the left takes the value's blocks in its own order (IEEE 1800-2017 11.4.14.3). */
export function withoutStream(target: Expression, value: Expression) {
  if (target.kind !== 'stream') return { target, value };
  const { at, parts } = target;
  return { target: { kind: 'concat', at, parts }, value: { ...target, parts: [value] } } as const;
}

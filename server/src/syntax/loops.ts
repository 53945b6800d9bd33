// for, while, repeat, forever. Loops whose head the tables do not hold (several variables, parts left out,
// do, foreach) are not read.

import { readAssignment } from './assignments';
import type { StatementReader } from './cases';
import { readExpression } from './expressions';
import { atOf, childOf, childrenOf, childrenOfKind, kindOf, none, unwrap } from './flat-tree';
import { nameOf } from './names';
import type { Reader } from './reader';
import type { Expression, Statement } from './tables';

/** Null for the forms that the tables do not hold. */
export function readLoop(reader: Reader, node: number, readStatement: StatementReader): Statement | null {
  const parts = childrenOf(reader.tree, node);
  const at = atOf(reader.tree, node);
  const last = parts[parts.length - 1];
  switch (kindOf(reader.tree, parts[0])) {
    case 'forever':
      return { kind: 'forever', at, body: readStatement(reader, last) };
    case 'repeat':
      return { kind: 'repeat', at, count: readExpression(reader, parts[2]), body: readStatement(reader, last) };
    case 'while':
      return { kind: 'while', at, condition: readExpression(reader, parts[2]), body: readStatement(reader, last) };
    case 'for':
      return readFor(reader, node, readStatement);
    default:
      return null;
  }
}

function readFor(reader: Reader, node: number, readStatement: StatementReader): Statement | null {
  const initialization = childOf(reader.tree, node, 'for_initialization');
  const condition = childOf(reader.tree, node, 'expression');
  const advance = childOf(reader.tree, node, 'for_step');
  if (initialization === none || condition === none || advance === none) return null;
  const start = readStart(reader, initialization);
  const step = readAssignment(reader, advance);
  if (start === null || step === null) return null;
  return {
    kind: 'for',
    at: atOf(reader.tree, node),
    ...start,
    condition: readExpression(reader, condition),
    step,
    body: readStatement(reader, childrenOfKind(reader.tree, node, 'statement_or_null')[0]),
  };
}

interface Start {
  readonly declares: boolean;
  readonly variable: Expression;
  readonly start: Expression;
}

/** variable = value, or type variable = value. */
function readStart(reader: Reader, node: number): Start | null {
  const inner = unwrap(reader.tree, node);
  const parts = childrenOf(reader.tree, inner);
  if (kindOf(reader.tree, inner) === 'variable_assignment') {
    return { declares: false, variable: readExpression(reader, parts[0]), start: readExpression(reader, parts[2]) };
  }
  const sign = parts.findIndex((part) => kindOf(reader.tree, part) === '=');
  if (kindOf(reader.tree, inner) !== 'for_variable_declaration' || parts.length !== sign + 2) return null;
  const name = nameOf(reader, parts[sign - 1]);
  const variable: Expression = { kind: 'name', at: atOf(reader.tree, parts[sign - 1]), name: name.name };
  return { declares: true, variable, start: readExpression(reader, parts[sign + 1]) };
}

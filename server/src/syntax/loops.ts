// for, while, repeat, forever; do and foreach as what they stand for. Loops whose head the tables do not hold (several
// variables, parts left out) are not read.

import { readAssignment } from './assignments';
import type { StatementReader } from './cases';
import { readExpression } from './expressions';
import { atOf, childOf, childrenOf, childrenOfKind, kindOf, none, unwrap } from './flat-tree';
import { readLoopBody } from './jumps';
import { nameOf } from './names';
import { plainDecimal } from './numbers';
import type { Reader } from './reader';
import type { At, Expression, Named, Statement } from './tables';

/** Null for the forms that the tables do not hold. */
export function readLoop(reader: Reader, node: number, readStatement: StatementReader): Statement | null {
  const parts = childrenOf(reader.tree, node);
  const at = atOf(reader.tree, node);
  const last = parts[parts.length - 1];
  const open = () => readLoopBody(reader, at, () => readStatement(reader, last));
  switch (kindOf(reader.tree, parts[0])) {
    case 'forever': {
      const { around, body } = open();
      return around({ kind: 'forever', at, body });
    }
    case 'repeat': {
      const count = readExpression(reader, parts[2]);
      const { around, body } = open();
      return around({ kind: 'repeat', at, count, body });
    }
    case 'while': {
      const condition = readExpression(reader, parts[2]);
      const { around, body } = open();
      return around({ kind: 'while', at, condition, body });
    }
    case 'do':
      return readDo(reader, node, readStatement);
    case 'for':
      return readFor(reader, node, readStatement);
    case 'foreach':
      return readForeach(reader, node, readStatement);
    default:
      return null;
  }
}

/** do body while (condition): once, then as long as it holds. Not where it is left by a jump, which would be two. */
function readDo(reader: Reader, node: number, readStatement: StatementReader): Statement | null {
  const at = atOf(reader.tree, node);
  const [, body] = childrenOf(reader.tree, node);
  const condition = childOf(reader.tree, node, 'expression');
  if (condition === none) return null;
  const first = readLoopBody(reader, at, () => readStatement(reader, body));
  const again = readLoopBody(reader, at, () => readStatement(reader, body));
  const loop: Statement = { kind: 'while', at, condition: readExpression(reader, condition), body: again.body };
  const both: Statement = {
    kind: 'block',
    at,
    label: null,
    parallel: false,
    declarations: [],
    body: [first.body, again.around(loop)],
  };
  return first.around(both) === both ? both : null;
}

/** foreach (a[i, j]) body: a loop for each variable, over the indices of its dimension (IEEE 1800-2017 12.7.3). */
function readForeach(reader: Reader, node: number, readStatement: StatementReader): Statement | null {
  const at = atOf(reader.tree, node);
  const parts = childrenOf(reader.tree, node);
  const list = childOf(reader.tree, node, 'loop_variables');
  const array = readExpression(reader, parts[2]);
  const last = parts[parts.length - 1];
  // A place left empty between commas is a dimension that is not gone through.
  const places = list === none ? [] : loopPlaces(reader, list);
  if (array.kind !== 'name' || places.length === 0) return null;
  const { around, body } = readLoopBody(reader, at, () => readStatement(reader, last));
  const loops = places.reduceRight<Statement>(
    (inner, variable, index) => (variable === null ? inner : loopOver(at, array, index + 1, variable, inner)),
    body,
  );
  return around(loops);
}

function loopPlaces(reader: Reader, list: number): readonly (Named | null)[] {
  const places: (Named | null)[] = [null];
  for (const part of childrenOf(reader.tree, list)) {
    if (kindOf(reader.tree, part) === ',') places.push(null);
    else places[places.length - 1] = nameOf(reader, part);
  }
  return places;
}

function loopOver(at: At, array: Expression, dimension: number, name: Named, body: Statement): Statement {
  const variable: Expression = { kind: 'name', at: { start: name.start, end: name.end }, name: name.name };
  const number = (text: string) => plainDecimal(at, text);
  const end = (query: string): Expression => ({
    kind: 'call',
    at,
    name: { ...at, name: query },
    args: [array, number(String(dimension))],
  });
  const binary = (operator: '<=' | '+', right: Expression): Expression => ({
    kind: 'binary',
    at,
    operator,
    left: variable,
    right,
  });
  return {
    kind: 'for',
    at,
    declares: true,
    variable,
    start: end('$low'),
    condition: binary('<=', end('$high')),
    step: {
      kind: 'assign',
      at,
      blocking: true,
      target: variable,
      value: binary('+', number('1')),
      delay: null,
      event: null,
    },
    body,
  };
}

function readFor(reader: Reader, node: number, readStatement: StatementReader): Statement | null {
  const initialization = childOf(reader.tree, node, 'for_initialization');
  const condition = childOf(reader.tree, node, 'expression');
  const advance = childOf(reader.tree, node, 'for_step');
  if (initialization === none || condition === none || advance === none) return null;
  const start = readStart(reader, initialization);
  const step = readAssignment(reader, advance);
  if (start === null || step === null) return null;
  const at = atOf(reader.tree, node);
  const [statement] = childrenOfKind(reader.tree, node, 'statement_or_null');
  const { around, body } = readLoopBody(reader, at, () => readStatement(reader, statement));
  return around({ kind: 'for', at, ...start, condition: readExpression(reader, condition), step, body });
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

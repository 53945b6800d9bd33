// Expressions: the grammar's many wrappers (constant, mintypmax, primary, …) become the few kinds of the
// tables. Chains of binary operators are walked along their left side without descending; everything else
// descends one level of nesting at a time, up to the limit.

import type { FlatTree } from './flat-tree';
import { atOf, childOf, childrenOf, isLeaf, kindOf, unwrap } from './flat-tree';
import { isName, nameOf } from './names';
import { readBased, readDecimal, readFill, readReal, readString, readTime } from './numbers';
import { readPattern, readPatternTarget, readStream } from './patterns';
import { wordsOf } from './production-words';
import { between, holeExpression, mayDescend, type Reader, remarkOn, standInOf, textOf } from './reader';
import { shortened } from './reasons';
import type { BinaryOperator, Callee, Expression, Named, UnaryOperator } from './tables';

export function readExpression(reader: Reader, node: number): Expression {
  const inner = withoutParentheses(reader.tree, node);
  if (isLeaf(reader.tree, inner)) return readLeaf(reader, inner);
  if (!mayDescend(reader, inner)) return { kind: 'hole', at: atOf(reader.tree, inner) };
  reader.depth += 1;
  const expression = readComposite(reader, inner);
  reader.depth -= 1;
  return expression;
}

/** Parentheses have done their work once the tree is built; they are no level of nesting. */
function withoutParentheses(tree: FlatTree, node: number): number {
  let inner = unwrap(tree, node);
  while (isParenthesized(tree, inner)) inner = unwrap(tree, childrenOf(tree, inner)[1]);
  return inner;
}

function isParenthesized(tree: FlatTree, node: number): boolean {
  const kind = kindOf(tree, node);
  return (kind === 'primary' || kind === 'constant_primary') && !isLeaf(tree, node) && kindOf(tree, node + 1) === '(';
}

function readExpressions(reader: Reader, nodes: readonly number[]): readonly Expression[] {
  return nodes.map((node) => readExpression(reader, node));
}

/** Expressions of a list, without its commas; a place left empty between commas becomes the empty string. */
export function readArguments(reader: Reader, list: number): readonly Expression[] {
  if (list < 0) return [];
  const parts = isArgumentList(reader.tree, list) ? childrenOf(reader.tree, list) : [list];
  const args: Expression[] = [];
  let filled = false;
  for (const part of parts) {
    if (kindOf(reader.tree, part) !== ',') args.push(readExpression(reader, part));
    else if (!filled) args.push({ kind: 'string', at: atOf(reader.tree, part), text: '' });
    filled = kindOf(reader.tree, part) !== ',';
  }
  return args;
}

type NodeReader = (reader: Reader, node: number) => Expression;

function readLeaf(reader: Reader, node: number): Expression {
  const standIn = standInOf(reader, node);
  if (standIn !== null) return { kind: 'hole', at: standIn.at };
  const read = leaves.get(kindOf(reader.tree, node));
  return read === undefined ? holeExpression(reader, node, textOf(reader, node)) : read(reader, node);
}

function readComposite(reader: Reader, node: number): Expression {
  const read = composites.get(kindOf(reader.tree, node));
  return read === undefined ? holeExpression(reader, node, wordsOf(kindOf(reader.tree, node))) : read(reader, node);
}

function readName(reader: Reader, node: number): Expression {
  return { kind: 'name', at: atOf(reader.tree, node), name: nameOf(reader, node).name };
}

function readSystemName(reader: Reader, node: number): Expression {
  return { kind: 'call', at: atOf(reader.tree, node), name: nameOf(reader, node), args: [] };
}

/** Told apart by their parts: unary, binary, conditional, or an assignment in parentheses. */
function readOperation(reader: Reader, node: number): Expression {
  const parts = childrenOf(reader.tree, node);
  if (parts.length === 2) return readUnary(reader, node, parts);
  if (parts.length === 5) return readConditional(reader, node);
  if (kindOf(reader.tree, parts[0]) === '(') return holeExpression(reader, node, 'assignment inside an expression');
  return readBinaryChain(reader, node);
}

function readUnary(reader: Reader, node: number, parts: readonly number[]): Expression {
  const operator = operatorOf(reader, parts[0]) as UnaryOperator;
  return { kind: 'unary', at: atOf(reader.tree, node), operator, operand: readExpression(reader, parts[1]) };
}

function readConditional(reader: Reader, node: number): Expression {
  const parts = childrenOf(reader.tree, node);
  const [condition, then, otherwise] = readExpressions(reader, [parts[0], parts[2], parts[4]]);
  return { kind: 'conditional', at: atOf(reader.tree, node), condition, then, else: otherwise };
}

/** a + b + c + … nests to the left as deep as it is long: collected downwards, built upwards. */
function readBinaryChain(reader: Reader, node: number): Expression {
  const chain: number[] = [];
  let left = node;
  for (; isBinary(reader.tree, left); left = unwrap(reader.tree, left + 1)) chain.push(left);
  let expression = readExpression(reader, left);
  for (let index = chain.length - 1; index >= 0; index -= 1) {
    const [, operator, right] = childrenOf(reader.tree, chain[index]);
    expression = joinBinary(reader, chain[index], operator, expression, right);
  }
  return expression;
}

function joinBinary(reader: Reader, node: number, operator: number, left: Expression, right: number): Expression {
  const word = operatorOf(reader, operator);
  if (!binaryOperators.has(word)) return holeExpression(reader, node, `operator ${word}`);
  const at = atOf(reader.tree, node);
  return { kind: 'binary', at, operator: word as BinaryOperator, left, right: readExpression(reader, right) };
}

function isBinary(tree: FlatTree, node: number): boolean {
  const kind = kindOf(tree, node);
  if (kind !== 'expression' && kind !== 'constant_expression') return false;
  return childrenOf(tree, node).length === 3 && kindOf(tree, node + 1) !== '(';
}

/** `^~` and `~^` are one operator (IEEE 1364-2005 5.1.10). */
function operatorOf(reader: Reader, node: number): string {
  const word = textOf(reader, node);
  return word === '^~' ? '~^' : word;
}

function readMinTypMax(reader: Reader, node: number): Expression {
  const parts = childrenOf(reader.tree, node);
  const [min, typ, max] = readExpressions(reader, [parts[0], parts[2], parts[4]]);
  return { kind: 'mintypmax', at: atOf(reader.tree, node), min, typ, max };
}

function readConcatenation(reader: Reader, node: number): Expression {
  return { kind: 'concat', at: atOf(reader.tree, node), parts: readExpressions(reader, listed(reader.tree, node)) };
}

function readReplication(reader: Reader, node: number): Expression {
  const [times, inner] = listed(reader.tree, node);
  const count = readExpression(reader, times);
  const parts = readExpressions(reader, listed(reader.tree, inner));
  return { kind: 'replicate', at: atOf(reader.tree, node), count, parts };
}

/** What stands between braces and commas. */
function listed(tree: FlatTree, node: number): readonly number[] {
  return childrenOf(tree, node).filter((child) => !listMarks.has(kindOf(tree, child)));
}

/** {targets}, pack::name, or a base with selects behind it. */
function readPrimary(reader: Reader, node: number): Expression {
  const parts = childrenOf(reader.tree, node);
  const first = kindOf(reader.tree, parts[0]);
  if (first === '{') return readConcatenation(reader, node);
  if (first === 'package_scope') return readScopedPrimary(reader, parts);
  if (first === '$root') return applySelects(reader, readName(reader, parts[0]), parts.slice(1));
  if (unreadQualifiers.has(first)) return holeExpression(reader, node, textOf(reader, parts[0]));
  return applySelects(reader, readExpression(reader, parts[0]), parts.slice(1));
}

function readScopedPrimary(reader: Reader, parts: readonly number[]): Expression {
  const scope = nameOf(reader, parts[0] + 1);
  const name = nameOf(reader, unwrap(reader.tree, parts[1]));
  const scoped: Expression = { kind: 'scoped', at: between(scope, name), scope, name };
  return applySelects(reader, scoped, parts.slice(2));
}

/** Selects and members in reading order, however the grammar groups them. */
function applySelects(reader: Reader, base: Expression, parts: readonly number[]): Expression {
  let expression = base;
  for (let index = 0; index < parts.length; index += 1) {
    const part = parts[index];
    const kind = kindOf(reader.tree, part);
    if (kind === '[') {
      expression = select(reader, expression, parts[index + 1], parts[index + 2]);
      index += 2;
    } else if (isName(kind)) {
      const name = nameOf(reader, part);
      expression = { kind: 'member', at: between(expression.at, name), base: expression, name };
    } else if (kind !== '.') {
      expression = applySelects(reader, expression, childrenOf(reader.tree, part));
    }
  }
  return expression;
}

function select(reader: Reader, base: Expression, selector: number, closing: number): Expression {
  const inner = unwrap(reader.tree, selector);
  const at = between(base.at, atOf(reader.tree, closing));
  const mode = rangeModes.get(kindOf(reader.tree, inner));
  if (mode === undefined) return { kind: 'index', at, base, index: readExpression(reader, inner) };
  const [left, sign, right] = childrenOf(reader.tree, inner);
  const [from, to] = readExpressions(reader, [left, right]);
  const direction = mode === 'fixed' ? 'fixed' : textOf(reader, sign) === '+:' ? 'up' : 'down';
  return { kind: 'range', at, base, mode: direction, left: from, right: to };
}

function readCall(reader: Reader, node: number): Expression {
  const parts = childrenOf(reader.tree, node);
  const list = parts.slice(2, -1);
  const args = list.length <= 1 ? readArguments(reader, list.length === 0 ? -1 : list[0]) : readLoose(reader, list);
  return {
    kind: 'call',
    at: atOf(reader.tree, node),
    name: nameOf(reader, parts[0]),
    args,
    ...calleeOf(reader, parts[0]),
  };
}

/** Where more than a plain name is called. */
function calleeOf(reader: Reader, node: number): { readonly callee?: Callee } {
  if (isLeaf(reader.tree, unwrap(reader.tree, node))) return {};
  const callee = readExpression(reader, node);
  return callee.kind === 'member' ? { callee } : {};
}

function readLoose(reader: Reader, parts: readonly number[]): readonly Expression[] {
  return readExpressions(
    reader,
    parts.filter((part) => kindOf(reader.tree, part) !== ','),
  );
}

/** The grammar takes p::q, p::f(x), and u.next where `next` is also a built-in method's name, for method calls. */
function readMethod(reader: Reader, node: number): Expression {
  const [root, mark, body] = childrenOf(reader.tree, node);
  const last = unwrap(reader.tree, body);
  const isPlain = isLeaf(reader.tree, last) && /^[A-Za-z_\\]/.test(textOf(reader, last));
  const base = readExpression(reader, root);
  if (base.kind === 'number') return refuseNumber(reader, node);
  const isPackage = kindOf(reader.tree, mark) === '::';
  if (base.kind === 'hole' || (isPackage && base.kind !== 'name')) return holeExpression(reader, node, 'method call');
  if (!isPlain && isPackage) return readPackageCall(reader, node, base, body);
  if (!isPlain) return readMemberCall(reader, node, base, body);
  return isPackage ? scopedIn(base, nameOf(reader, last)) : memberOf(base, nameOf(reader, last));
}

function memberOf(base: Expression, name: Named): Extract<Expression, { kind: 'member' }> {
  return { kind: 'member', at: between(base.at, name), base, name };
}

function scopedIn(base: Expression, name: Named): Extract<Expression, { kind: 'scoped' }> {
  const scope = { ...base.at, name: base.kind === 'name' ? base.name : '' };
  return { kind: 'scoped', at: between(base.at, name), scope, name };
}

/** u.next(arguments): a function of an instance, or a method of an enumeration. */
function readMemberCall(reader: Reader, node: number, base: Expression, body: number): Expression {
  const [called, open, ...rest] = childrenOf(reader.tree, unwrap(reader.tree, body));
  if (open === undefined || kindOf(reader.tree, open) !== '(' || !isLeaf(reader.tree, unwrap(reader.tree, called)))
    return holeExpression(reader, node, 'method call');
  const callee = memberOf(base, nameOf(reader, unwrap(reader.tree, called)));
  const list = rest.slice(0, -1);
  const args = list.length <= 1 ? readArguments(reader, list.length === 0 ? -1 : list[0]) : readLoose(reader, list);
  return { kind: 'call', at: atOf(reader.tree, node), name: callee.name, args, callee };
}

/** p::f(arguments) */
function readPackageCall(reader: Reader, node: number, base: Expression, body: number): Expression {
  // A name that some built-in method has too stands one level further down.
  const [called, open, ...rest] = childrenOf(reader.tree, unwrap(reader.tree, body));
  if (open === undefined || kindOf(reader.tree, open) !== '(') return holeExpression(reader, node, 'method call');
  const callee = scopedIn(base, nameOf(reader, unwrap(reader.tree, called)));
  const list = rest.slice(0, -1);
  const args = list.length <= 1 ? readArguments(reader, list.length === 0 ? -1 : list[0]) : readLoose(reader, list);
  const name = { ...callee.at, name: `${callee.scope.name}::${callee.name.name}` };
  return { kind: 'call', at: atOf(reader.tree, node), name, args, callee };
}

/** 1.e3: digits have to follow the point (IEEE 1364-2005 A.8.7). */
function refuseNumber(reader: Reader, node: number): Expression {
  remarkOn(reader, node, 'bad-number', { text: shortened(textOf(reader, node)) });
  return { kind: 'hole', at: atOf(reader.tree, node) };
}

/** signed'(x) and unsigned'(x) mean the system functions of IEEE 1364-2005 5.5; const'(x) is x. */
function readCast(reader: Reader, node: number): Expression {
  const parts = childrenOf(reader.tree, node);
  const type = textOf(reader, parts[0]);
  const at = atOf(reader.tree, node);
  const place = atOf(reader.tree, parts[0]);
  const value = readExpression(reader, parts[3]);
  if (type === 'const') return value;
  if (type === 'signed' || type === 'unsigned') {
    return { kind: 'call', at, name: { ...place, name: `$${type}` }, args: [value] };
  }
  if (type === 'string' || type === 'real' || type === 'shortreal')
    return holeExpression(reader, node, `cast to ${type}`);
  return { kind: 'call', at, name: { ...place, name: "$'" }, args: [castingType(reader, parts[0]), value] };
}

/** A size, a type's keyword, or a type's name as an expression of its own. */
function castingType(reader: Reader, node: number): Expression {
  const inner = unwrap(reader.tree, node);
  const at = atOf(reader.tree, node);
  const [first, second] = isLeaf(reader.tree, inner) ? [] : childrenOf(reader.tree, inner);
  if (first !== undefined && second !== undefined && kindOf(reader.tree, first) === 'package_scope') {
    return { kind: 'scoped', at, scope: nameOf(reader, first + 1), name: nameOf(reader, unwrap(reader.tree, second)) };
  }
  const word = textOf(reader, node);
  return /^[a-z]+$/.test(word) ? { kind: 'name', at, name: word } : readExpression(reader, inner);
}

/** x inside {a, [b:c]} (IEEE 1800-2017 11.4.13). */
function readInside(reader: Reader, node: number): Expression {
  const [tested] = childrenOf(reader.tree, node);
  const list = childOf(reader.tree, node, 'range_list');
  const at = atOf(reader.tree, node);
  const ranges = list < 0 ? [] : childrenOf(reader.tree, list).filter((part) => kindOf(reader.tree, part) !== ',');
  const [first, ...others] = readRangeTests(reader, readExpression(reader, tested), ranges);
  if (first === undefined) return holeExpression(reader, node, 'inside without values');
  return others.reduce((any, test) => ({ kind: 'binary', at, operator: '||', left: any, right: test }), first);
}

/** Whether a value lies in each of `ranges`: `==?` against a value, both bounds of a range. */
export function readRangeTests(reader: Reader, tested: Expression, ranges: readonly number[]): readonly Expression[] {
  return ranges.map((range): Expression => {
    const at = atOf(reader.tree, range);
    const binary = (operator: BinaryOperator, left: Expression, right: Expression): Expression => ({
      kind: 'binary',
      at,
      operator,
      left,
      right,
    });
    const isValue = kindOf(reader.tree, range) !== 'value_range' || isLeaf(reader.tree, range);
    const bounds = isValue
      ? [range]
      : childrenOf(reader.tree, range).filter((part) => !rangeMarks.has(kindOf(reader.tree, part)));
    if (bounds.length < 2) return binary('==?', tested, readExpression(reader, bounds[0]));
    const [low, high] = bounds;
    const least = isOpen(reader, low) ? null : binary('>=', tested, readExpression(reader, low));
    const most = isOpen(reader, high) ? null : binary('<=', tested, readExpression(reader, high));
    if (least !== null && most !== null) return binary('&&', least, most);
    return least ?? most ?? { kind: 'number', at, size: 1, signed: false, base: 'b', digits: '1' };
  });
}

/** `$`: the range ends where the values do. */
function isOpen(reader: Reader, node: number): boolean {
  return textOf(reader, node) === '$';
}

const rangeMarks: ReadonlySet<string> = new Set(['[', ':', ']']);

function isArgumentList(tree: FlatTree, node: number): boolean {
  return kindOf(tree, node) === 'list_of_arguments' && childOf(tree, node, '.') < 0;
}

const listMarks: ReadonlySet<string> = new Set(['{', '}', ',']);
const unreadQualifiers: ReadonlySet<string> = new Set(['class_qualifier', 'implicit_class_handle', 'class_scope']);
const rangeModes: ReadonlyMap<string, 'fixed' | 'indexed'> = new Map([
  ['constant_range', 'fixed'],
  ['indexed_range', 'indexed'],
  ['constant_indexed_range', 'indexed'],
]);
const binaryOperators: ReadonlySet<string> = new Set([
  '+',
  '-',
  '*',
  '/',
  '%',
  '**',
  '==',
  '!=',
  '===',
  '!==',
  '==?',
  '!=?',
  '<',
  '<=',
  '>',
  '>=',
  '&&',
  '||',
  '&',
  '|',
  '^',
  '~^',
  '<<',
  '>>',
  '<<<',
  '>>>',
]);

const leaves: ReadonlyMap<string, NodeReader> = new Map<string, NodeReader>([
  ['simple_identifier', readName],
  ['escaped_identifier', readName],
  ['unsigned_number', readDecimal],
  ['fixed_point_number', readReal],
  ['real_number', readReal],
  ['quoted_string', readString],
  ['triple_quoted_string', readString],
  ['system_tf_identifier', readSystemName],
  ['unbased_unsized_literal', readFill],
  ["'0", readFill],
  ["'1", readFill],
]);

const composites: ReadonlyMap<string, NodeReader> = new Map<string, NodeReader>([
  ['expression', readOperation],
  ['constant_expression', readOperation],
  ['conditional_expression', readConditional],
  ['inside_expression', readInside],
  ['mintypmax_expression', readMinTypMax],
  ['constant_mintypmax_expression', readMinTypMax],
  ['primary', readPrimary],
  ['constant_primary', readPrimary],
  ['net_lvalue', readPrimary],
  ['variable_lvalue', readPrimary],
  ['nonrange_variable_lvalue', readPrimary],
  ['hierarchical_identifier', readPrimary],
  ['port', readPrimary],
  ['concatenation', readConcatenation],
  ['constant_concatenation', readConcatenation],
  ['multiple_concatenation', readReplication],
  ['constant_multiple_concatenation', readReplication],
  ['decimal_number', readBased],
  ['binary_number', readBased],
  ['octal_number', readBased],
  ['hex_number', readBased],
  ['time_literal', readTime],
  ['tf_call', readCall],
  ['system_tf_call', readCall],
  ['method_call', readMethod],
  ['cast', readCast],
  ['constant_cast', readCast],
  ['assignment_pattern', (reader, node) => readPattern(reader, node, readExpression)],
  ['assignment_pattern_expression', (reader, node) => readPattern(reader, node, readExpression)],
  ['constant_assignment_pattern_expression', (reader, node) => readPattern(reader, node, readExpression)],
  ['assignment_pattern_variable_lvalue', (reader, node) => readPatternTarget(reader, node, readExpression)],
  ['assignment_pattern_net_lvalue', (reader, node) => readPatternTarget(reader, node, readExpression)],
  ['streaming_concatenation', (reader, node) => readStream(reader, node, readExpression)],
]);

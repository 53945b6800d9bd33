// What a node may be replaced by when it is asked for, keeping its meaning for every four-state value. Wiring is
// brought to one form (no slice of a slice, no concat in a concat), constants are folded, a choice already made is
// made. Gates are never combined or removed: the text wrote them, and hazards live in them.
// One liberty, stated: a choice between equal arms is that arm, a wire. Where the arm is z and the select unknown this
// keeps z, where the conditional operator's table (IEEE 1364-2005 Table 5-21) says x.

import type { Place } from '../text/place';
import { evaluate, type OperatorTables } from './evaluate';
import { labelMatch } from './evaluate-choice';
import { type Bits, hasUnknown, zero } from './four-state';
import { concat } from './four-state-parts';
import type { NodeColumns, NodeId } from './netlist';
import { isMemoryOperator, isSource, Op, type OpCode } from './operators';

/** What simplifying needs of a node builder. */
export interface Maker extends OperatorTables {
  readonly nodes: NodeColumns;
  add(op: OpCode, width: number, operands: readonly NodeId[], aux: number, place: Place): NodeId;
  constant(bits: Bits, place: Place): NodeId;
  constantOf(node: NodeId): Bits | null;
}

/** The node to use instead, of the same width, or null. Widths are right already. */
export function simplify(
  maker: Maker,
  op: OpCode,
  width: number,
  operands: readonly NodeId[],
  aux: number,
  place: Place,
): NodeId | null {
  if (isSource(op) || isKept(op)) return null;
  const folded = foldConstants(maker, op, width, operands, aux, place);
  if (folded !== null) return folded;
  switch (op) {
    case Op.slice:
      return simplifySlice(maker, operands[0], aux, width, place);
    case Op.concat:
      return simplifyConcat(maker, operands, width, place);
    case Op.zeroExtend:
      return simplifyZeroExtension(maker, operands[0], width, place);
    case Op.signExtend:
      return simplifySignExtension(maker, operands[0], width, place);
    case Op.mux:
      return simplifyMux(maker, operands);
    case Op.select:
      return simplifySelect(maker, operands, aux);
    default:
      return null;
  }
}

/** Named stretches, delays, wired nets and memories stay what they are, constant or not: facts hang on them. */
function isKept(op: OpCode): boolean {
  return op === Op.net || op === Op.delay || op === Op.resolve || isMemoryOperator(op);
}

function foldConstants(
  maker: Maker,
  op: OpCode,
  width: number,
  operands: readonly NodeId[],
  aux: number,
  place: Place,
): NodeId | null {
  for (const operand of operands) if (maker.nodes.op[operand] !== Op.constant) return null;
  const values = operands.map((operand) => maker.constantOf(operand) as Bits);
  return maker.constant(evaluate(op, width, values, aux, maker), place);
}

function simplifySlice(maker: Maker, node: NodeId, low: number, width: number, place: Place): NodeId | null {
  const { nodes } = maker;
  if (width === nodes.width[node]) return node;
  const inner = nodes.pool[nodes.first[node]] as NodeId;
  switch (nodes.op[node]) {
    case Op.slice:
      return maker.add(Op.slice, width, [inner], nodes.aux[node] + low, place);
    case Op.concat:
      return sliceConcat(maker, node, low, width, place);
    case Op.signExtend:
      return sliceSignExtension(maker, inner, low, width, place);
    default:
      return null;
  }
}

/** The parts, or pieces of parts, that a stretch of a concat covers. */
function sliceConcat(maker: Maker, node: NodeId, low: number, width: number, place: Place): NodeId {
  const { nodes } = maker;
  const parts: NodeId[] = [];
  let above = nodes.width[node];
  const end = nodes.first[node] + nodes.arity[node];
  for (let entry = nodes.first[node]; entry < end && above > low; entry++) {
    const part = nodes.pool[entry] as NodeId;
    const partLow = above - nodes.width[part];
    const from = Math.max(low, partLow);
    const until = Math.min(low + width, above);
    above = partLow;
    if (from < until) parts.push(maker.add(Op.slice, until - from, [part], from - partLow, place));
  }
  return maker.add(Op.concat, width, parts, 0, place);
}

/** Above the inner value every bit is its most significant one. */
function sliceSignExtension(maker: Maker, inner: NodeId, low: number, width: number, place: Place): NodeId {
  const innerWidth = maker.nodes.width[inner];
  const from = Math.min(low, innerWidth - 1);
  const kept = Math.min(width, innerWidth - from);
  return maker.add(Op.signExtend, width, [maker.add(Op.slice, kept, [inner], from, place)], 0, place);
}

function simplifyConcat(maker: Maker, parts: readonly NodeId[], width: number, place: Place): NodeId | null {
  if (parts.length === 1) return parts[0];
  const joined = runsOf(maker.nodes, flattened(maker.nodes, parts)).map((run) => joinRun(maker, run, place));
  return sameList(joined, parts) ? null : maker.add(Op.concat, width, joined, 0, place);
}

function flattened(nodes: NodeColumns, parts: readonly NodeId[]): readonly NodeId[] {
  if (!parts.some((part) => nodes.op[part] === Op.concat)) return parts;
  return parts.flatMap((part) => {
    if (nodes.op[part] !== Op.concat) return [part];
    const first = nodes.first[part];
    return Array.from(nodes.pool.subarray(first, first + nodes.arity[part])) as NodeId[];
  });
}

/** Neighbors that can be one part stand in one run: stretches of one node that follow each other, or constants. */
function runsOf(nodes: NodeColumns, parts: readonly NodeId[]): readonly NodeId[][] {
  const runs: NodeId[][] = [];
  for (const part of parts) {
    const run = runs[runs.length - 1];
    if (run !== undefined && follows(nodes, run[run.length - 1], part)) run.push(part);
    else runs.push([part]);
  }
  return runs;
}

function follows(nodes: NodeColumns, above: NodeId, below: NodeId): boolean {
  if (nodes.op[above] !== nodes.op[below]) return false;
  if (nodes.op[above] === Op.constant) return true;
  if (nodes.op[above] !== Op.slice || nodes.pool[nodes.first[above]] !== nodes.pool[nodes.first[below]]) return false;
  return nodes.aux[above] === nodes.aux[below] + nodes.width[below];
}

/** A run as one node. At once, so that no slice is made on the way that nothing reads. */
function joinRun(maker: Maker, run: readonly NodeId[], place: Place): NodeId {
  const { nodes } = maker;
  const lowest = run[run.length - 1];
  if (run.length === 1) return lowest;
  if (nodes.op[lowest] === Op.constant) {
    return maker.constant(concat(run.map((part) => maker.constantOf(part) as Bits)), place);
  }
  const width = run.reduce((sum, part) => sum + nodes.width[part], 0);
  return maker.add(Op.slice, width, [nodes.pool[nodes.first[lowest]] as NodeId], nodes.aux[lowest], place);
}

/** Zeros in front are a constant part of a concat, so that a walk back from one of them ends at a constant. */
function simplifyZeroExtension(maker: Maker, node: NodeId, width: number, place: Place): NodeId {
  const { nodes } = maker;
  if (nodes.width[node] === width) return node;
  const zeros = maker.constant(zero(width - nodes.width[node]), place);
  return maker.add(Op.concat, width, [zeros, node], 0, place);
}

function simplifySignExtension(maker: Maker, node: NodeId, width: number, place: Place): NodeId | null {
  const { nodes } = maker;
  if (nodes.width[node] === width) return node;
  if (nodes.op[node] !== Op.signExtend) return null;
  return maker.add(Op.signExtend, width, [nodes.pool[nodes.first[node]] as NodeId], 0, place);
}

function simplifyMux(maker: Maker, [select, whenOne, whenZero]: readonly NodeId[]): NodeId | null {
  if (whenOne === whenZero) return whenOne;
  const value = maker.constantOf(select);
  if (value === null || hasUnknown(value)) return null;
  return value.a[0] === 1 ? whenOne : whenZero;
}

/** Without arms, with all values one node, or with the deciding labels and the selector known: the value taken. */
function simplifySelect(maker: Maker, operands: readonly NodeId[], aux: number): NodeId | null {
  const last = operands.length - 1;
  const otherwise = operands[last];
  if (armValues(operands).every((value) => value === otherwise)) return otherwise;
  const selector = maker.constantOf(operands[0]);
  if (selector === null || hasUnknown(selector)) return null;
  for (let index = 1; index < last; index += 2) {
    const label = maker.constantOf(operands[index]);
    if (label === null) return null;
    const wildcards = aux < 0 ? null : maker.caseWildcards[aux][(index - 1) / 2];
    const match = labelMatch(selector, label, wildcards);
    if (match === 'perhaps') return null;
    if (match === 'yes') return operands[index + 1];
  }
  return otherwise;
}

function armValues(operands: readonly NodeId[]): readonly NodeId[] {
  return operands.filter((_, index) => index >= 2 && index % 2 === 0);
}

function sameList(left: readonly NodeId[], right: readonly NodeId[]): boolean {
  return left.length === right.length && left.every((node, index) => node === right[index]);
}

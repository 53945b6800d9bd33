// What a cell gives for the levels of its operands, read from a plane of levels (0, 1, 2 = z, 3 = x). Bitwise cells by the
// tables of IEEE 1364-2005 5.1.10 and 5.1.13, as `netlist/evaluate.ts` does for words; all else asks that room, with a
// short way for known numbers of at most 32 bits.

import { evaluate } from '../netlist/evaluate';
import { type Bits, fromLimbs, limbCount } from '../netlist/four-state';
import type { Netlist } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { levelAtBit } from './engine-bits';
import { CellKind, type Cells } from './engine-cells';

const unknown = 3;

/** Writes the levels of a cell's output bits into `out`, least significant first. */
export function evaluateCell(netlist: Netlist, cells: Cells, cell: number, plane: Uint8Array, out: Uint8Array): void {
  if (cells.kind[cell] < CellKind.select) out[0] = evaluateBit(netlist, cells, cell, plane);
  else evaluateWord(netlist, cells, cell, plane, out);
}

/** The level of a cell with one output bit of a bitwise operator (every kind below `select`). */
export function evaluateBit(netlist: Netlist, cells: Cells, cell: number, plane: Uint8Array): number {
  const { pool } = cells;
  const first = cells.first[cell];
  const end = first + cells.arity[cell];
  switch (cells.kind[cell]) {
    case CellKind.pass:
      return plane[pool[first]];
    case CellKind.buf:
      return known(plane[pool[first]]);
    case CellKind.not:
      return inverted(plane[pool[first]]);
    case CellKind.and:
      return dominated(pool, first, end, plane, 0);
    case CellKind.nand:
      return inverted(dominated(pool, first, end, plane, 0));
    case CellKind.or:
      return dominated(pool, first, end, plane, 1);
    case CellKind.nor:
      return inverted(dominated(pool, first, end, plane, 1));
    case CellKind.xor:
      return parity(pool, first, end, plane);
    case CellKind.xnor:
      return inverted(parity(pool, first, end, plane));
    case CellKind.mux:
      return chosen(plane[pool[first]], plane[pool[first + 1]], plane[pool[first + 2]]);
    case CellKind.tristate:
      return released(plane[pool[first]], plane[pool[first + 1]]);
    default:
      return resolved(netlist, cells, cell, plane);
  }
}

/** What is known when a level is one of two (IEEE 1364-2005 Table 5-21). */
export function mergeLevels(left: number, right: number): number {
  return left === right && left < 2 ? left : unknown;
}

function known(level: number): number {
  return level < 2 ? level : unknown;
}

function inverted(level: number): number {
  return level < 2 ? level ^ 1 : unknown;
}

/** An and (`ruling` 0) or an or (`ruling` 1): the ruling level wins, then x. */
function dominated(pool: Uint32Array, first: number, end: number, plane: Uint8Array, ruling: number): number {
  let level = ruling ^ 1;
  for (let entry = first; entry < end; entry++) {
    const operand = plane[pool[entry]];
    if (operand === ruling) return ruling;
    if (operand >= 2) level = unknown;
  }
  return level;
}

function parity(pool: Uint32Array, first: number, end: number, plane: Uint8Array): number {
  let level = 0;
  for (let entry = first; entry < end; entry++) {
    const operand = plane[pool[entry]];
    if (operand >= 2) return unknown;
    level ^= operand;
  }
  return level;
}

function chosen(select: number, whenOne: number, whenZero: number): number {
  if (select === 1) return whenOne;
  return select === 0 ? whenZero : mergeLevels(whenOne, whenZero);
}

function released(data: number, enable: number): number {
  if (enable >= 2) return unknown;
  return enable === 0 ? 2 : known(data);
}

function resolved(netlist: Netlist, cells: Cells, cell: number, plane: Uint8Array): number {
  let low = 0;
  let high = 0;
  let unclear = 0;
  const end = cells.first[cell] + cells.arity[cell];
  for (let entry = cells.first[cell]; entry < end; entry++) {
    const level = plane[cells.pool[entry]];
    if (level === 0) low = 1;
    else if (level === 1) high = 1;
    else if (level === unknown) unclear = 1;
  }
  const { kind } = netlist.resolutions[netlist.nodes.aux[cells.node[cell]]];
  if ((low | high | unclear) === 0) return kind === 'tri0' ? 0 : kind === 'tri1' ? 1 : 2;
  if (kind === 'wand' && low === 1) return 0;
  if (kind === 'wor' && high === 1) return 1;
  if (unclear === 1 || (low & high) === 1) return unknown;
  return high;
}

/** As `evaluateCell`, for a cell of words (`select` and above). */
export function evaluateWord(netlist: Netlist, cells: Cells, cell: number, plane: Uint8Array, out: Uint8Array): void {
  const node = cells.node[cell];
  if (cells.kind[cell] === CellKind.select && chooseArm(netlist, cells, cell, plane, out)) return;
  if (computeKnown(netlist, cells, cell, plane, out)) return;
  const { nodes } = netlist;
  const operands: Bits[] = [];
  let at = cells.first[cell];
  for (let entry = nodes.first[node]; entry < nodes.first[node] + nodes.arity[node]; entry++) {
    const width = nodes.width[nodes.pool[entry]];
    operands.push(gather(cells.pool, at, width, plane));
    at += width;
  }
  const result = evaluate(nodes.op[node], nodes.width[node], operands, nodes.aux[node], netlist);
  for (let bit = 0; bit < cells.width[cell]; bit++) out[bit] = levelAtBit(result, bit);
}

function gather(pool: Uint32Array, first: number, width: number, plane: Uint8Array): Bits {
  const a = new Uint32Array(limbCount(width));
  const b = new Uint32Array(limbCount(width));
  for (let bit = 0; bit < width; bit++) {
    const level = plane[pool[first + bit]];
    a[bit >>> 5] |= (level & 1) << (bit & 31);
    b[bit >>> 5] |= (level >>> 1) << (bit & 31);
  }
  return fromLimbs(width, a, b);
}

/** The levels at `width` (at most 32) operand bits as a number, or -1 if any is unknown. */
function knownNumber(pool: Uint32Array, first: number, width: number, plane: Uint8Array): number {
  let value = 0;
  for (let bit = width - 1; bit >= 0; bit--) {
    const level = plane[pool[first + bit]];
    if (level >= 2) return -1;
    value = value * 2 + level;
  }
  return value;
}

/** A case whose selector and labels are known and whose labels have no wildcards: copies the arm taken. */
function chooseArm(netlist: Netlist, cells: Cells, cell: number, plane: Uint8Array, out: Uint8Array): boolean {
  const arm = findArm(netlist, cells, cell, plane);
  if (arm < 0) return false;
  for (let bit = 0; bit < cells.width[cell]; bit++) out[bit] = plane[cells.pool[arm + bit]];
  return true;
}

/** Where in the pool the value taken by a `select` cell begins; -1 where that takes the long way. */
export function findArm(netlist: Netlist, cells: Cells, cell: number, plane: Uint8Array): number {
  const { nodes } = netlist;
  const node = cells.node[cell];
  const labelWidth = nodes.width[nodes.pool[nodes.first[node]]];
  if (labelWidth > 32 || nodes.aux[node] >= 0) return -1;
  const selector = knownNumber(cells.pool, cells.first[cell], labelWidth, plane);
  if (selector < 0) return -1;
  let at = cells.first[cell] + labelWidth;
  for (let arms = (nodes.arity[node] - 2) / 2; arms > 0; arms--) {
    const label = knownNumber(cells.pool, at, labelWidth, plane);
    if (label < 0) return -1;
    at += labelWidth;
    if (label === selector) return at;
    at += cells.width[cell];
  }
  return at;
}

/** Sums, comparisons and reductions of known numbers of at most 32 bits; false where it takes the long way. */
function computeKnown(netlist: Netlist, cells: Cells, cell: number, plane: Uint8Array, out: Uint8Array): boolean {
  const { nodes } = netlist;
  const node = cells.node[cell];
  const operandWidth = nodes.width[nodes.pool[nodes.first[node]]];
  const op = nodes.op[node];
  if (operandWidth > 32 || op < Op.reduceAnd || op > Op.multiply) return false;
  const left = knownNumber(cells.pool, cells.first[cell], operandWidth, plane);
  if (left < 0) return false;
  if (op <= Op.reduceXor || op === Op.negate) return spread(computeOne(op, left, operandWidth), cells.width[cell], out);
  const right = knownNumber(cells.pool, cells.first[cell] + operandWidth, operandWidth, plane);
  if (right < 0) return false;
  return spread(computeTwo(op, left, right, operandWidth), cells.width[cell], out);
}

function spread(value: number, width: number, out: Uint8Array): true {
  for (let bit = 0; bit < width; bit++) out[bit] = (value >>> bit) & 1;
  return true;
}

function computeOne(op: number, value: number, width: number): number {
  switch (op) {
    case Op.reduceAnd:
      return value === 2 ** width - 1 ? 1 : 0;
    case Op.reduceOr:
      return value === 0 ? 0 : 1;
    case Op.reduceXor:
      return onesIn(value) & 1;
    default:
      return -value;
  }
}

function computeTwo(op: number, left: number, right: number, width: number): number {
  // Two's complement numbers compare as unsigned ones with the sign bit turned.
  const sign = 2 ** (width - 1);
  switch (op) {
    case Op.equal:
      return left === right ? 1 : 0;
    case Op.notEqual:
      return left === right ? 0 : 1;
    case Op.lessUnsigned:
      return left < right ? 1 : 0;
    case Op.lessEqualUnsigned:
      return left <= right ? 1 : 0;
    case Op.lessSigned:
      return (left + sign) % (2 * sign) < (right + sign) % (2 * sign) ? 1 : 0;
    case Op.lessEqualSigned:
      return (left + sign) % (2 * sign) <= (right + sign) % (2 * sign) ? 1 : 0;
    case Op.add:
      return left + right;
    case Op.subtract:
      return left - right;
    default:
      return Math.imul(left, right);
  }
}

function onesIn(value: number): number {
  let count = 0;
  for (let rest = value; rest !== 0; rest &= rest - 1) count++;
  return count;
}

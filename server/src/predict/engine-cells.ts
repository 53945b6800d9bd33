// The logic of a netlist cut into cells over dense bits: a bitwise operator becomes one cell per bit, any other operator
// one cell for all its bits. Columns, operand bits in a pool; for a cell of words, operand after operand, least
// significant bit first.

import type { Netlist, NodeColumns } from '../netlist/netlist';
import { isSource, isWiring, Op } from '../netlist/operators';
import type { DenseBits } from './engine-bits';
import { listOf } from './engine-lists';

export const CellKind = {
  /** An explicit delay: passes its operand. */
  pass: 0,
  buf: 1,
  not: 2,
  and: 3,
  nand: 4,
  or: 5,
  nor: 6,
  xor: 7,
  xnor: 8,
  mux: 9,
  tristate: 10,
  resolve: 11,
  /** An n-way case: operands as `select`. */
  select: 12,
  /** Everything else, by the netlist's own rules. */
  word: 13,
} as const;

export interface Cells {
  readonly count: number;
  readonly kind: Uint8Array;
  readonly node: Uint32Array;
  /** Dense number of the first output bit, and how many there are. */
  readonly out: Uint32Array;
  readonly width: Uint32Array;
  readonly first: Uint32Array;
  readonly arity: Uint32Array;
  readonly pool: Uint32Array;
  /** Dense bit → the cell that drives it, -1 for sources, registers and latches. */
  readonly driverOf: Int32Array;
}

export function createCells(netlist: Netlist, bits: DenseBits): Cells {
  const counts = countCells(netlist);
  const cells = {
    count: counts.cells,
    kind: new Uint8Array(counts.cells),
    node: new Uint32Array(counts.cells),
    out: new Uint32Array(counts.cells),
    width: new Uint32Array(counts.cells),
    first: new Uint32Array(counts.cells),
    arity: new Uint32Array(counts.cells),
    pool: new Uint32Array(counts.operands),
    driverOf: new Int32Array(bits.count).fill(-1),
  };
  fillCells(netlist, bits, cells);
  return cells;
}

/** Output bits of the widest cell. */
export function widestCell(cells: Cells): number {
  return cells.width.reduce((widest, width) => Math.max(widest, width), 1);
}

export function isLogic(op: number): boolean {
  return !isSource(op) && !isWiring(op);
}

/** A choice between contents of a memory is one of words: their bits are one number. */
function kindOf({ op, aux }: NodeColumns, node: number): number {
  if (op[node] === Op.mux && aux[node] > 0) return CellKind.word;
  return kinds.get(op[node]) ?? CellKind.word;
}

const kinds: ReadonlyMap<number, number> = new Map<number, number>([
  [Op.delay, CellKind.pass],
  [Op.buf, CellKind.buf],
  [Op.not, CellKind.not],
  [Op.and, CellKind.and],
  [Op.nand, CellKind.nand],
  [Op.or, CellKind.or],
  [Op.nor, CellKind.nor],
  [Op.xor, CellKind.xor],
  [Op.xnor, CellKind.xnor],
  [Op.mux, CellKind.mux],
  [Op.tristate, CellKind.tristate],
  [Op.resolve, CellKind.resolve],
  [Op.select, CellKind.select],
]);

function isBitwise(kind: number): boolean {
  return kind < CellKind.select;
}

function countCells({ nodes }: Netlist): { readonly cells: number; readonly operands: number } {
  let cells = 0;
  let operands = 0;
  for (let node = 0; node < nodes.count; node++) {
    if (!isLogic(nodes.op[node])) continue;
    if (isBitwise(kindOf(nodes, node))) {
      cells += nodes.width[node];
      operands += nodes.width[node] * nodes.arity[node];
    } else {
      cells++;
      const end = nodes.first[node] + nodes.arity[node];
      for (let entry = nodes.first[node]; entry < end; entry++) operands += nodes.width[nodes.pool[entry]];
    }
  }
  return { cells, operands };
}

function fillCells({ nodes }: Netlist, bits: DenseBits, cells: Cells): void {
  const filler = createFiller(bits, cells);
  for (let node = 0; node < nodes.count; node++) {
    if (!isLogic(nodes.op[node])) continue;
    const kind = kindOf(nodes, node);
    const operands = listOf(nodes, node);
    if (!isBitwise(kind)) {
      filler.begin(node, kind, 0, nodes.width[node]);
      for (const operand of operands) filler.read(operand, 0, nodes.width[operand]);
      continue;
    }
    for (let bit = 0; bit < nodes.width[node]; bit++) {
      filler.begin(node, kind, bit, 1);
      // The select of a multiplexer and the enable of a tri-state driver serve every bit.
      for (const operand of operands) filler.read(operand, nodes.width[operand] === 1 ? 0 : bit, 1);
    }
  }
}

/** Cells one after the other: each begins, then reads its operands. */
function createFiller(bits: DenseBits, cells: Cells) {
  let cell = -1;
  let pooled = 0;
  return {
    begin(node: number, kind: number, bit: number, width: number): void {
      cell++;
      cells.kind[cell] = kind;
      cells.node[cell] = node;
      cells.out[cell] = bits.base[node] + bit;
      cells.width[cell] = width;
      cells.first[cell] = pooled;
      cells.driverOf.fill(cell, cells.out[cell], cells.out[cell] + width);
    },
    read(operand: number, low: number, width: number): void {
      for (let bit = 0; bit < width; bit++) cells.pool[pooled++] = bits.of(operand, low + bit);
      cells.arity[cell] += width;
    },
  };
}

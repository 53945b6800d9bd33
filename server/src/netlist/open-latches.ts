// The same circuit with latches as the choices that they are while one looks only at levels: what stands at the data input
// while the gate is open, else what is stored. For questions about what runs round while latches are open. Nodes keep
// their numbers, new ones stand behind them; everything else of the netlist is as it was.

import type { Bit, Latch, LatchId, Netlist, NodeColumns, NodeId } from './netlist';
import { Op } from './operators';

export interface OpenLatches {
  readonly netlist: Netlist;
  /** The node that gives a latch's output, by node; the same node as before. */
  readonly latchOf: ReadonlyMap<NodeId, LatchId>;
  /** Nodes that choose: what opens, sets and clears. */
  readonly choosing: ReadonlySet<NodeId>;
}

export function withOpenLatches(netlist: Netlist): OpenLatches {
  const columns = copyColumns(netlist.nodes);
  const choosing = new Set<NodeId>();
  for (const latch of netlist.latches) openOne(columns, latch, choosing);
  return {
    netlist: { ...netlist, nodes: columnsOf(columns) },
    latchOf: new Map(netlist.latches.map(({ id, node }) => [node, id])),
    choosing,
  };
}

/** The stored value and the choices are new nodes; the old one passes what they give. */
function openOne(columns: Columns, latch: Latch, choosing: Set<NodeId>): void {
  const { node, width } = latch;
  const place = columns.place[node];
  const add = (op: number, of: number, operands: readonly NodeId[], aux: number) =>
    addNode(columns, { op, width: of, operands, aux, place });
  const choose = ({ node: control, bit }: Bit, active: 'high' | 'low', taken: NodeId, rest: NodeId) => {
    const select = add(Op.slice, 1, [control], bit);
    choosing.add(select);
    return add(Op.mux, width, active === 'high' ? [select, taken, rest] : [select, rest, taken], 0);
  };
  const stored = add(Op.latch, width, [], latch.id);
  const opened = choose(latch.gate, latch.active, latch.data, stored);
  const value = latch.asynchronous.reduceRight(
    (rest, { active, control, value: loaded }) => choose(control, active, loaded, rest),
    opened,
  );
  columns.op[node] = Op.buf;
  columns.first[node] = columns.pool.push(value) - 1;
  columns.arity[node] = 1;
}

interface Columns {
  readonly op: number[];
  readonly width: number[];
  readonly first: number[];
  readonly arity: number[];
  readonly aux: number[];
  readonly place: number[];
  readonly pool: number[];
}

interface NewNode {
  readonly op: number;
  readonly width: number;
  readonly operands: readonly NodeId[];
  readonly aux: number;
  readonly place: number;
}

function copyColumns({ op, width, first, arity, aux, place, pool, count }: NodeColumns): Columns {
  const copy = (column: ArrayLike<number>) => Array.from(column).slice(0, count);
  return {
    op: copy(op),
    width: copy(width),
    first: copy(first),
    arity: copy(arity),
    aux: copy(aux),
    place: copy(place),
    pool: Array.from(pool),
  };
}

function addNode(columns: Columns, { op, width, operands, aux, place }: NewNode): NodeId {
  columns.width.push(width);
  columns.first.push(columns.pool.length);
  columns.arity.push(operands.length);
  columns.aux.push(aux);
  columns.place.push(place);
  for (const operand of operands) columns.pool.push(operand);
  return (columns.op.push(op) - 1) as NodeId;
}

function columnsOf({ op, width, first, arity, aux, place, pool }: Columns): NodeColumns {
  return {
    count: op.length,
    op: Uint8Array.from(op),
    width: Uint32Array.from(width),
    first: Uint32Array.from(first),
    arity: Uint32Array.from(arity),
    aux: Int32Array.from(aux),
    place: Int32Array.from(place),
    pool: Uint32Array.from(pool),
  };
}

// Makes node columns. Nodes are hash-consed: asking twice for the same operator, width, operands and aux gives the
// same node, whose place is the first one's. `net`, `delay` and source nodes are told apart by their aux; a `hole` is
// never shared. What `simplify.ts` can say without changing the meaning is said instead of the node asked for.

import type { Budget } from '../budget';
import { impossible } from '../text/impossible';
import type { Place } from '../text/place';
import { createConstantTable } from './constant-table';
import type { Bits } from './four-state';
import type { NetPieceId, Netlist, NodeColumns, NodeId, ResolutionKind, SignalId } from './netlist';
import { createNodeTable, finishedColumns } from './node-table';
import { Op, type OpCode } from './operators';
import { simplify } from './simplify';
import { checkWidths } from './width-rules';

export interface NodeBuilder {
  /**
   * The columns as they stand, readable at any moment: `count` and the arrays grow with the netlist (arrays are longer
   * than `count` and are replaced as they grow, so hold on to `nodes`, never to one of its arrays).
   */
  readonly nodes: NodeColumns;
  readonly constants: readonly Bits[];
  readonly places: readonly Place[];
  readonly caseWildcards: Netlist['caseWildcards'];
  readonly resolutions: Netlist['resolutions'];
  /** None: what a memory starts with is known when all of its module is. */
  readonly memories: readonly never[];
  /** Whether the budget of nodes is used up. Building goes on working; the caller stops and complains. */
  readonly exceeded: boolean;
  /** The node, or what it simplifies to: the result has the width asked for, but not always the operator. */
  add(op: OpCode, width: number, operands: readonly NodeId[], aux: number, place: Place): NodeId;
  constant(bits: Bits, place: Place): NodeId;
  /** A `net` node whose driver is not known yet: until `drive`, it reads itself. */
  net(piece: NetPieceId, width: number, place: Place): NodeId;
  /** Gives a node made by `net` its driver, of the same width. Once. */
  drive(net: NodeId, driver: NodeId): void;
  /** Label bits that match anything, one value per arm; the index is the `aux` of a `select`. */
  addWildcards(arms: readonly Bits[]): number;
  /** The index is the `aux` of a `resolve`. */
  addResolution(kind: ResolutionKind, signal: SignalId): number;
  /** The value of a `constant` node, else null. */
  constantOf(node: NodeId): Bits | null;
  /** The finished columns, cut to length. Every net must have its driver. */
  columns(): NodeColumns;
}

/**
 * `budget`: of the limit `nodes`. A new node spends one, and one more per eight operands, since a netlist of few but
 * enormous concatenations must meet its limit too.
 */
export function createNodeBuilder(budget: Budget): NodeBuilder {
  const table = createNodeTable();
  const constantTable = createConstantTable();
  const placeTable = createPlaceTable();
  const caseWildcards: (readonly Bits[])[] = [];
  const resolutions: { kind: ResolutionKind; signal: SignalId }[] = [];
  /** Nets without driver. Reading itself is no sign of one: `assign a = a` does so for good. */
  const open = new Set<NodeId>();
  const { nodes } = table;

  function share(op: number, width: number, operands: readonly NodeId[], aux: number, place: Place): NodeId {
    const found = op === Op.hole ? null : table.find(op, width, operands, aux);
    if (found !== null) return found;
    budget.spend(1 + (operands.length >>> 3));
    return table.append(op, width, operands, aux, placeTable.indexOf(place));
  }

  const builder: NodeBuilder = {
    nodes,
    constants: constantTable.constants,
    places: placeTable.places,
    caseWildcards,
    resolutions,
    memories: [],
    get exceeded() {
      return budget.exceeded;
    },
    add(op, width, operands, aux, place) {
      checkWidths(nodes, op, width, operands, aux);
      return simplify(builder, op, width, operands, aux, place) ?? share(op, width, operands, aux, place);
    },
    constant(bits, place) {
      return share(Op.constant, bits.width, [], constantTable.indexOf(bits), place);
    },
    net(piece, width, place) {
      budget.spend(1);
      const net = table.appendOpen(Op.net, width, piece, placeTable.indexOf(place));
      open.add(net);
      return net;
    },
    drive(net, driver) {
      if (!open.has(net)) impossible(`node ${net} is no net without driver`);
      if (nodes.width[net] !== nodes.width[driver]) impossible(`net ${net} and its driver ${driver} differ in width`);
      table.setOperand(net, 0, driver);
      open.delete(net);
    },
    addWildcards(arms) {
      return caseWildcards.push(arms) - 1;
    },
    addResolution(kind, signal) {
      return resolutions.push({ kind, signal }) - 1;
    },
    constantOf(node) {
      return nodes.op[node] === Op.constant ? constantTable.constants[nodes.aux[node]] : null;
    },
    columns() {
      for (const net of open) impossible(`net ${net} has no driver`);
      return finishedColumns(nodes);
    },
  };
  return builder;
}

function createPlaceTable() {
  const places: Place[] = [];
  const indices = new Map<Place, number>();
  return {
    places,
    /** Places are told apart by identity: one object per construct is the habit, and equal copies do no harm. */
    indexOf(place: Place): number {
      const known = indices.get(place);
      if (known !== undefined) return known;
      indices.set(place, places.length);
      return places.push(place) - 1;
    },
  };
}

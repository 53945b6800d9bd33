// Makes node columns. Nodes are hash-consed: asking twice for the same operator, width, operands and aux gives the
// same node, whose place is the first one's. `net`, `delay` and source nodes are told apart by their aux; a `hole` is
// never shared. What `simplify.ts` can say without changing the meaning is said instead of the node asked for.

import type { Budget } from '../budget';
import { impossible } from '../text/impossible';
import type { Place } from '../text/place';
import type { Bits } from './four-state';
import type { NetPieceId, Netlist, NodeColumns, NodeId, ResolutionKind, SignalId } from './netlist';
import type { OpCode } from './operators';

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

/** `budget`: of the limit `nodes`; one is spent per new node. */
export function createNodeBuilder(budget: Budget): NodeBuilder {
  return impossible(`not built: ${budget.limit}`);
}

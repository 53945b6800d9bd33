// Copies the node columns of every instance into one set, imports replaced by what they lead to.

import type { NodeColumns, NodeId } from '../netlist/netlist';
import { impossible } from '../text/impossible';
import { Op } from '../netlist/operators';
import { type InstanceTree, nodesOfEnd, type TreeInstance } from './instance-tree';
import type { Import } from './template';

/** A node of a template as it stands in one copy of it. */
export function linkedNode(instance: TreeInstance, node: NodeId): NodeId {
  let at = instance;
  let local = node;
  for (;;) {
    const rank = at.shared.rank[local];
    if (rank >= 0) return (at.bases.node + rank) as NodeId;
    const entry = at.template.imports[at.template.nodes.aux[local]];
    const next = follow(at, entry);
    if (typeof next === 'number') return next as NodeId;
    at = next.instance;
    local = next.node;
  }
}

type Followed = { readonly instance: TreeInstance; readonly node: NodeId } | number;

function follow(instance: TreeInstance, entry: Import): Followed {
  if (entry.kind === 'port') {
    const end = instance.ends.get(entry.signal);
    if (end !== undefined) return end + nodesOfEnd(instance, entry.signal) - 1;
    return connection(instance, entry.signal);
  }
  const below = entry.kind === 'export' ? [entry.child] : entry.path;
  const child = below.reduce<TreeInstance | undefined>((at, index) => at?.byIndex.get(index), instance);
  if (child === undefined) return impossible(`no instance ${below.join('.')} below ${instance.path}`);
  const node =
    entry.kind === 'export' ? child.template.exports.get(entry.signal) : child.template.signals[entry.signal].node;
  if (node === undefined) return impossible(`signal ${entry.signal} of ${child.path} drives nothing outward`);
  return { instance: child, node };
}

function connection({ parent, child, path }: TreeInstance, signal: number): Followed {
  const node = child?.inputs.get(signal);
  if (parent === null || node === undefined) return impossible(`no connection for signal ${signal} of ${path}`);
  return { instance: parent, node };
}

/** Yields now and then. */
export function* linkNodes(
  tree: InstanceTree,
  complaintOf: (instance: TreeInstance, complaint: number) => number,
): Generator<void, NodeColumns> {
  const { counts, instances } = tree;
  const pool: number[] = [];
  const columns = {
    count: counts.node,
    op: new Uint8Array(counts.node),
    width: new Uint32Array(counts.node),
    first: new Uint32Array(counts.node),
    arity: new Uint32Array(counts.node),
    aux: new Int32Array(counts.node),
    place: new Int32Array(counts.node),
  };
  for (const instance of instances) {
    yield* copyNodes(columns, pool, instance, complaintOf);
    addEnds(columns, pool, instance);
    if (instance.id % 64 === 63) yield;
  }
  return { ...columns, pool: Uint32Array.from(pool) };
}

type Columns = Omit<NodeColumns, 'pool'>;

function* copyNodes(
  columns: Columns,
  pool: number[],
  instance: TreeInstance,
  complaintOf: (instance: TreeInstance, complaint: number) => number,
): Generator<void, void> {
  const { nodes } = instance.template;
  for (let node = 0; node < nodes.count; node++) {
    const rank = instance.shared.rank[node];
    if (node % 8192 === 8191) yield;
    if (rank < 0) continue;
    const id = instance.bases.node + rank;
    columns.op[id] = nodes.op[node];
    columns.width[id] = nodes.width[node];
    columns.arity[id] = nodes.arity[node];
    columns.first[id] = pool.length;
    columns.place[id] = nodes.place[node] + instance.shared.place;
    columns.aux[id] =
      nodes.op[node] === Op.hole ? complaintOf(instance, nodes.aux[node]) : linkedAux(instance, nodes, node);
    const end = nodes.first[node] + nodes.arity[node];
    for (let entry = nodes.first[node]; entry < end; entry++)
      pool.push(linkedNode(instance, nodes.pool[entry] as NodeId));
  }
}

function linkedAux({ bases, shared }: TreeInstance, { op, aux }: NodeColumns, node: number): number {
  const own = aux[node];
  switch (op[node]) {
    case Op.constant:
      return own + shared.constant;
    case Op.register:
      return own + bases.register;
    case Op.latch:
      return own + bases.latch;
    case Op.blackBox:
      return own + bases.blackBoxOutput;
    case Op.undriven:
      return own + bases.signal;
    case Op.net:
      return own + bases.piece;
    case Op.delay:
      return own + shared.delay;
    case Op.resolve:
      return own + bases.resolution;
    case Op.memoryRead:
    case Op.memoryWrite:
    case Op.memoryFill:
    case Op.memoryPick:
      return own + bases.memory;
    case Op.mux:
      return own > 0 ? own + bases.memory : own;
    case Op.select:
      return own < 0 ? own : own + shared.wildcards;
    default:
      return own;
  }
}

/** What stands where no instance above gives a port its value: the world around the top, or nothing. */
function addEnds(columns: Columns, pool: number[], instance: TreeInstance): void {
  const { template, parent, bases, shared } = instance;
  let resolution = bases.resolution + template.resolutions.length;
  for (const [signal, id] of instance.ends) {
    const { width, node } = template.signals[signal];
    const end = { width, place: template.nodes.place[node] + shared.place };
    const op = parent === null ? Op.input : Op.undriven;
    setNode(columns, pool, id, { ...end, op, aux: signal + bases.signal, operands: [] });
    const own = parent === null ? template.exports.get(signal) : undefined;
    if (own === undefined) continue;
    const operands = [id, linkedNode(instance, own)];
    setNode(columns, pool, id + 1, { ...end, op: Op.resolve, aux: resolution++, operands });
  }
}

interface NewNode {
  readonly op: number;
  readonly width: number;
  readonly place: number;
  readonly aux: number;
  readonly operands: readonly number[];
}

function setNode(columns: Columns, pool: number[], id: number, { op, width, place, aux, operands }: NewNode): void {
  columns.op[id] = op;
  columns.width[id] = width;
  columns.place[id] = place;
  columns.aux[id] = aux;
  columns.first[id] = pool.length;
  columns.arity[id] = operands.length;
  pool.push(...operands);
}

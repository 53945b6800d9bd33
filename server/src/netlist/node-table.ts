// Growing columns of nodes with a hash table over them: equal nodes are stored once. Hashes and comparisons are on
// whole numbers only. Knows nothing of what operators mean.

import type { NodeColumns, NodeId } from './netlist';

export interface NodeTable {
  /** The columns as they stand; the arrays are longer than `count` and are replaced as they grow. */
  readonly nodes: NodeColumns;
  /** The node with exactly these entries, or null. `place` does not count. */
  find(op: number, width: number, operands: readonly NodeId[], aux: number): NodeId | null;
  /** A new node, found again by `find`. */
  append(op: number, width: number, operands: readonly NodeId[], aux: number, place: number): NodeId;
  /** A new node that `find` never gives, with itself as its only operand until `setOperand`. */
  appendOpen(op: number, width: number, aux: number, place: number): NodeId;
  setOperand(node: NodeId, index: number, operand: NodeId): void;
}

export function createNodeTable(): NodeTable {
  const nodes = emptyColumns(64);
  let pooled = 0;
  let slots = new Int32Array(256);
  let shared = 0;

  function sameNode(node: number, op: number, width: number, operands: readonly NodeId[], aux: number): boolean {
    if (nodes.op[node] !== op || nodes.width[node] !== width || nodes.aux[node] !== aux) return false;
    if (nodes.arity[node] !== operands.length) return false;
    const first = nodes.first[node];
    for (let index = 0; index < operands.length; index++) {
      if (nodes.pool[first + index] !== operands[index]) return false;
    }
    return true;
  }

  function insert(node: number): void {
    let slot = hashOfNode(nodes, node) & (slots.length - 1);
    while (slots[slot] !== 0) slot = (slot + 1) & (slots.length - 1);
    slots[slot] = node + 1;
  }

  function growSlots(): void {
    const old = slots;
    slots = new Int32Array(old.length * 2);
    for (const entry of old) if (entry !== 0) insert(entry - 1);
  }

  function push(op: number, width: number, arity: number, aux: number, place: number): NodeId {
    const node = nodes.count;
    if (node === nodes.op.length) growColumns(nodes);
    while (pooled + arity > nodes.pool.length) nodes.pool = grown(nodes.pool, Uint32Array);
    nodes.op[node] = op;
    nodes.width[node] = width;
    nodes.first[node] = pooled;
    nodes.arity[node] = arity;
    nodes.aux[node] = aux;
    nodes.place[node] = place;
    nodes.count = node + 1;
    pooled += arity;
    return node as NodeId;
  }

  return {
    nodes,
    find(op, width, operands, aux) {
      let slot = hashOf(op, width, operands, aux) & (slots.length - 1);
      for (; slots[slot] !== 0; slot = (slot + 1) & (slots.length - 1)) {
        if (sameNode(slots[slot] - 1, op, width, operands, aux)) return (slots[slot] - 1) as NodeId;
      }
      return null;
    },
    append(op, width, operands, aux, place) {
      const node = push(op, width, operands.length, aux, place);
      nodes.pool.set(operands, nodes.first[node]);
      shared += 1;
      if (shared * 2 > slots.length) growSlots();
      insert(node);
      return node;
    },
    appendOpen(op, width, aux, place) {
      const node = push(op, width, 1, aux, place);
      nodes.pool[nodes.first[node]] = node;
      return node;
    },
    setOperand(node, index, operand) {
      nodes.pool[nodes.first[node] + index] = operand;
    },
  };
}

/** The columns cut to length, as copies. */
export function finishedColumns(nodes: NodeColumns): NodeColumns {
  const count = nodes.count;
  const last = count - 1;
  const pooled = count === 0 ? 0 : nodes.first[last] + nodes.arity[last];
  return {
    count,
    op: nodes.op.slice(0, count),
    width: nodes.width.slice(0, count),
    first: nodes.first.slice(0, count),
    arity: nodes.arity.slice(0, count),
    aux: nodes.aux.slice(0, count),
    place: nodes.place.slice(0, count),
    pool: nodes.pool.slice(0, pooled),
  };
}

type GrowingColumns = { -readonly [Name in keyof NodeColumns]: NodeColumns[Name] };

function emptyColumns(capacity: number): GrowingColumns {
  return {
    count: 0,
    op: new Uint8Array(capacity),
    width: new Uint32Array(capacity),
    first: new Uint32Array(capacity),
    arity: new Uint32Array(capacity),
    aux: new Int32Array(capacity),
    place: new Int32Array(capacity),
    pool: new Uint32Array(capacity * 2),
  };
}

function growColumns(nodes: GrowingColumns): void {
  nodes.op = grown(nodes.op, Uint8Array);
  nodes.width = grown(nodes.width, Uint32Array);
  nodes.first = grown(nodes.first, Uint32Array);
  nodes.arity = grown(nodes.arity, Uint32Array);
  nodes.aux = grown(nodes.aux, Int32Array);
  nodes.place = grown(nodes.place, Int32Array);
}

function grown<Column extends Uint8Array | Uint32Array | Int32Array>(
  column: Column,
  Type: new (length: number) => Column,
): Column {
  const longer = new Type(column.length * 2);
  longer.set(column);
  return longer;
}

function hashOf(op: number, width: number, operands: readonly NodeId[], aux: number): number {
  let hash = mixed(mixed(mixed(seed, op), width), aux);
  for (let index = 0; index < operands.length; index++) hash = mixed(hash, operands[index]);
  return finished(hash);
}

/** The same number as `hashOf` of the node's entries, without making a list of them. */
function hashOfNode(nodes: NodeColumns, node: number): number {
  let hash = mixed(mixed(mixed(seed, nodes.op[node]), nodes.width[node]), nodes.aux[node]);
  const first = nodes.first[node];
  for (let index = 0; index < nodes.arity[node]; index++) hash = mixed(hash, nodes.pool[first + index]);
  return finished(hash);
}

const seed = 0x1f83d9ab;

/** One step of a multiplicative hash; both constants are odd numbers near 2^32 divided by the golden ratio. */
function mixed(hash: number, value: number): number {
  return Math.imul((hash << 5) ^ (hash >>> 27) ^ value, 0x9e3779b1);
}

function finished(hash: number): number {
  const folded = Math.imul(hash ^ (hash >>> 15), 0x85ebca77);
  return folded ^ (folded >>> 13);
}

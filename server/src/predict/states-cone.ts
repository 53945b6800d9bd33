// The logic that makes the next values of some registers, and what else it hangs on: `atoms`, the bits that other
// registers, inputs or memories give, and the single-bit conditions made of nothing but those. One step of the registers
// is one active edge of their clock. Logic that feeds itself is not followed.

import type { Why } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import type { Bit, Netlist, NodeId, RegisterId } from '../netlist/netlist';
import { isSource, isWiring, Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';

export interface NextCone {
  readonly registers: readonly RegisterId[];
  /** Every node between, operands first; atoms and the registers' own nodes are not among them. */
  readonly order: readonly NodeId[];
  readonly atoms: readonly Atom[];
  /** Index in `atoms` by key of the bit. */
  readonly atomOf: ReadonlyMap<number, number>;
  /** Nodes of which atoms are bits. */
  readonly leaves: readonly NodeId[];
}

export interface Atom {
  readonly bit: Bit;
  /** Of a comparison with a constant: what is compared, and the constant's node. Two of one subject are never both true. */
  readonly equality: { readonly subject: NodeId; readonly constant: NodeId } | null;
}

const mostNodes = 4_000;
const mostAtoms = 256;

export function nextConeOf(netlist: Netlist, registers: readonly RegisterId[]): NextCone | Why {
  const { nodes } = netlist;
  const own = new Set(registers.map((id) => netlist.registers[id].node));
  const roots = registers.map((id) => netlist.registers[id].data);
  const whole = postOrder(netlist, roots, () => false);
  if (whole === 'loop') return { reason: 'states-loop', args: {} };
  if (whole === 'large') return { reason: 'states-logic', args: { limit: mostNodes } };
  const hears = new Set<NodeId>();
  for (const node of whole)
    if (own.has(node) || operandsOf(netlist, node).some((each) => hears.has(each))) hears.add(node);
  const isLeaf = (node: NodeId) =>
    !own.has(node) &&
    nodes.op[node] !== Op.constant &&
    (isOpen(netlist, node) || (isCondition(netlist, node) && !hears.has(node)));
  const kept = postOrder(netlist, roots, isLeaf);
  if (typeof kept === 'string') return { reason: 'states-logic', args: { limit: mostNodes } };
  const leaves = kept.filter(isLeaf);
  const atoms = leaves.flatMap((node) =>
    Array.from({ length: nodes.width[node] }, (_, bit) => atomAt(netlist, { node, bit })),
  );
  if (atoms.length > mostAtoms) return { reason: 'states-inputs', args: {} };
  return {
    registers,
    order: kept.filter((node) => !isLeaf(node) && !own.has(node)),
    atoms,
    atomOf: new Map(atoms.map(({ bit }, index) => [bitKey(bit), index])),
    leaves,
  };
}

export function operandsOf({ nodes }: Netlist, node: NodeId): NodeId[] {
  const first = nodes.first[node];
  return Array.from(nodes.pool.subarray(first, first + nodes.arity[node])) as NodeId[];
}

/** What has no value but the one it is given. */
function isOpen({ nodes }: Netlist, node: NodeId): boolean {
  return (isSource(nodes.op[node]) && nodes.op[node] !== Op.constant) || nodes.op[node] === Op.memoryRead;
}

/** A single-bit answer about something wider, not a way of joining or moving bits. */
function isCondition({ nodes }: Netlist, node: NodeId): boolean {
  return nodes.width[node] === 1 && !isWiring(nodes.op[node]) && !joining.has(nodes.op[node]);
}

const joining: ReadonlySet<number> = new Set([
  Op.constant,
  Op.delay,
  Op.resolve,
  Op.buf,
  Op.not,
  Op.and,
  Op.nand,
  Op.or,
  Op.nor,
  Op.xor,
  Op.xnor,
  Op.tristate,
  Op.mux,
  Op.select,
]);

function atomAt(netlist: Netlist, bit: Bit): Atom {
  const { nodes } = netlist;
  if (nodes.op[bit.node] !== Op.equal) return { bit, equality: null };
  const [left, right] = operandsOf(netlist, bit.node);
  if (isConstant(netlist, right)) return { bit, equality: { subject: left, constant: right } };
  return { bit, equality: isConstant(netlist, left) ? { subject: right, constant: left } : null };
}

function isConstant({ nodes }: Netlist, node: NodeId): boolean {
  return Array.from({ length: nodes.width[node] }).every((_, bit) => {
    const source = sourceBit(nodes, { node, bit });
    return nodes.op[source.node] === Op.constant;
  });
}

/** Operands first, roots last; ends at sources and leaves. */
function postOrder(
  netlist: Netlist,
  roots: readonly NodeId[],
  isLeaf: (node: NodeId) => boolean,
): NodeId[] | 'loop' | 'large' {
  const { nodes } = netlist;
  const order: NodeId[] = [];
  const state = new Map<NodeId, 'open' | 'done'>();
  const waiting: { readonly node: NodeId; readonly isLeft: boolean }[] = [...roots]
    .reverse()
    .map((node) => ({ node, isLeft: false }));
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { node, isLeft } = next;
    if (isLeft) {
      state.set(node, 'done');
      order.push(node);
      continue;
    }
    const known = state.get(node);
    if (known === 'open') return 'loop';
    if (known === 'done') continue;
    if (state.size >= mostNodes) return 'large';
    state.set(node, 'open');
    waiting.push({ node, isLeft: true });
    if (isSource(nodes.op[node]) || isLeaf(node)) continue;
    for (const operand of operandsOf(netlist, node).reverse()) {
      if (state.get(operand) === 'open') return 'loop';
      if (!state.has(operand)) waiting.push({ node: operand, isLeft: false });
    }
  }
  return order;
}

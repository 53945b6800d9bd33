// `opposite-edges` (definition 38): logic between registers on the two edges of one root has only the time from the one
// edge to the other. Information, with that time. Silent with nothing between the two, where half a period is plenty: no
// logic but inverters, a clear, and the choice to hold. Stages behind other registers have times of their own.

import type { RegisterClocking } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import type { Bit, NodeId, Netlist, Register, RegisterId } from '../netlist/netlist';
import { isWiring, Op } from '../netlist/operators';
import { sourceBit, visitOperandsOfBit } from '../netlist/trace';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName, togetherByPlace } from './subjects';

export const oppositeEdges: FindingRule = {
  id: 'opposite-edges',
  find(context) {
    if (!context.network.registers.some(isOnFallingEdge)) return [];
    const halves = context.netlist.registers.flatMap((to) => halfPeriod(context, to) ?? []);
    const processes = [...new Set(halves.map(({ to }) => to.process))];
    return processes.flatMap((process) =>
      findOne(
        context,
        halves.filter(({ to }) => to.process === process),
      ),
    );
  },
};

/** Most designs have none, and nothing to walk for. */
function isOnFallingEdge({ root }: RegisterClocking): boolean {
  return root?.edge === 'falling';
}

/** What one register samples through logic from the other edge of its root. */
interface Half {
  readonly to: Register;
  readonly from: readonly RegisterId[];
}

function halfPeriod({ netlist, network }: HazardContext, to: Register): Half | null {
  const own = network.registers[to.id];
  if (own.root === null || own.stage !== 1 || own.root.edge === 'either') return null;
  const { edge, root } = own.root;
  const from = registersBehindLogic(netlist, to).filter((id) => {
    const other = network.registers[id];
    const isOpposite =
      other.root?.edge === 'rising' || other.root?.edge === 'falling' ? other.root.edge !== edge : false;
    return isOpposite && other.stage === 1 && other.root?.root === root;
  });
  return from.length === 0 ? null : { to, from };
}

/** Registers whose bits come in through a gate, an operator or a choice between two that are neither held nor fixed. */
function registersBehindLogic(netlist: Netlist, to: Register): RegisterId[] {
  const { nodes } = netlist;
  const found = new Set<RegisterId>();
  const seen = { straight: new Set<number>(), behind: new Set<number>() };
  const waiting: { readonly bit: Bit; readonly isBehind: boolean }[] = [];
  const push = (bit: Bit, isBehind: boolean) => {
    const known = isBehind ? seen.behind : seen.straight;
    if (!known.has(bitKey(bit))) waiting.push({ bit, isBehind });
    known.add(bitKey(bit));
  };
  for (let bit = 0; bit < to.width; bit++) push({ node: to.data, bit }, false);
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { bit, isBehind } = next;
    if (nodes.op[bit.node] === Op.register) {
      if (isBehind) found.add(nodes.aux[bit.node] as RegisterId);
      continue;
    }
    const straight = straightOperands(netlist, to, bit);
    visitOperandsOfBit(nodes, bit, (node, index) => push({ node, bit: index }, isBehind || !straight.has(node)));
  }
  return [...found].sort((left, right) => left - right);
}

/** Operands that pass as they are, or turned over; of a choice between holding or a constant and something else, that. */
function straightOperands({ nodes }: Netlist, to: Register, { node, bit }: Bit): ReadonlySet<NodeId> {
  const operands = Array.from(
    nodes.pool.subarray(nodes.first[node], nodes.first[node] + nodes.arity[node]),
  ) as NodeId[];
  const op = nodes.op[node];
  if (isWiring(op) || op === Op.buf || op === Op.not || op === Op.delay) return new Set(operands);
  if (op !== Op.mux) return new Set();
  const isIdle = (arm: NodeId) => {
    const source = sourceBit(nodes, { node: arm, bit });
    return source.node === to.node || nodes.op[source.node] === Op.constant;
  };
  const [select, ...arms] = operands;
  return new Set(arms.some(isIdle) ? arms.filter((arm) => arm !== select) : []);
}

function findOne(context: HazardContext, halves: readonly Half[]): RawFinding[] {
  const { netlist, network, prediction } = context;
  const [first] = halves;
  const { root, edge } = network.registers[first.to.id].root ?? {};
  if (root === undefined || edge === undefined) return [];
  const clock = prediction.drive.clocks.find((driven) => driven.root === root);
  const names = (ids: readonly RegisterId[]) => [...new Set(ids.map((id) => registerName(netlist, id)))];
  const from = [...new Set(halves.flatMap((half) => half.from))].sort((left, right) => left - right);
  const to = names(halves.map((half) => half.to.id));
  const launches = from.map((id) => ({ place: netlist.registers[id].samplePlace, name: registerName(netlist, id) }));
  const budgetPs = clock === undefined ? null : edge === 'falling' ? clock.high : clock.period - clock.high;
  return [
    {
      id: 'opposite-edges',
      certainty: null,
      signals: [...to, ...names(from)],
      instance: instancePath(netlist, first.to.instance),
      place: first.to.samplePlace,
      related: togetherByPlace(launches).map(({ place, names: from }) => ({
        place,
        why: { reason: 'transfer-launch', args: { from } },
      })),
      facts: { to, from: names(from), root: network.roots[root].name, edge, budgetPs },
      weight: {},
    },
  ];
}

// Cross-coupled gates: a loop that is storage somebody built, and no mistake (definition 40). Recognized where all of the
// loop is gates and names, the inversions on the way round are even in number and not none (so that it holds instead of
// oscillating), and every gate has a control from outside the loop.

import { bitKey } from '../netlist/bit-key';
import type { Bit, NodeColumns } from '../netlist/netlist';
import { isWiring, Op } from '../netlist/operators';
import { visitOperandsOfBit } from '../netlist/trace';

const controlled: ReadonlySet<number> = new Set([Op.and, Op.nand, Op.or, Op.nor]);
const inverting: ReadonlySet<number> = new Set([Op.not, Op.nand, Op.nor]);

export function isGateLatch(nodes: NodeColumns, loop: readonly Bit[]): boolean {
  const members = new Set(loop.map(bitKey));
  const gates = loop.filter(({ node }) => !isWiring(nodes.op[node]) && nodes.op[node] !== Op.buf);
  const inversions = gates.filter(({ node }) => inverting.has(nodes.op[node])).length;
  const controls = gates.filter(({ node }) => controlled.has(nodes.op[node]));
  const areGates = gates.every(({ node }) => controlled.has(nodes.op[node]) || nodes.op[node] === Op.not);
  return (
    areGates &&
    inversions > 0 &&
    inversions % 2 === 0 &&
    controls.length > 1 &&
    controls.every((gate) => hasControl(nodes, members, gate)) &&
    loop.every((bit) => operandsInside(nodes, members, bit) === 1)
  );
}

function hasControl(nodes: NodeColumns, members: ReadonlySet<number>, gate: Bit): boolean {
  let outside = 0;
  visitOperandsOfBit(nodes, gate, (node, bit) => {
    if (!members.has(bitKey({ node, bit }))) outside++;
  });
  return outside > 0;
}

/** One, where the loop is a single way round: only then is the number of inversions that of the way. */
function operandsInside(nodes: NodeColumns, members: ReadonlySet<number>, at: Bit): number {
  let inside = 0;
  visitOperandsOfBit(nodes, at, (node, bit) => {
    if (members.has(bitKey({ node, bit }))) inside++;
  });
  return inside;
}

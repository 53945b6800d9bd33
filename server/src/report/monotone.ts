// Whether logic can pulse at the change of a single bit: not if every stored bit reaches the output with one sense only,
// straight or inverted, along all its paths. Then each single change moves the output at most once, whatever the gates'
// delays. Operators of unknown structure, and choices by their select, count as both senses.

import { digitAt } from '../netlist/four-state';
import { type Bit, type Netlist, type NodeId, operand } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { operandsOfBit } from '../netlist/trace';

type Sense = 'straight' | 'inverted' | 'both';

export function isMonotone(netlist: Netlist, bit: Bit): boolean {
  const senses = new Map<string, Sense>();
  const pending: { readonly bit: Bit; readonly sense: Sense }[] = [{ bit, sense: 'straight' }];
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    const key = `${next.bit.node}.${next.bit.bit}`;
    const before = senses.get(key);
    const sense = before === undefined || before === next.sense ? next.sense : 'both';
    if (before === sense) continue;
    senses.set(key, sense);
    const operands = operandsOfBit(netlist.nodes, next.bit);
    if (operands.length === 0 && sense === 'both' && netlist.nodes.op[next.bit.node] !== Op.constant) return false;
    for (const from of operands)
      pending.push({ bit: from, sense: through(sense, senseOf(netlist, next.bit.node, from)) });
  }
  return true;
}

function through(outer: Sense, inner: Sense): Sense {
  if (outer === 'both' || inner === 'both') return 'both';
  return outer === inner ? 'straight' : 'inverted';
}

/** How an operand's bit acts on the node that reads it. */
function senseOf(netlist: Netlist, node: NodeId, from: Bit): Sense {
  const { nodes } = netlist;
  switch (nodes.op[node]) {
    case Op.not:
    case Op.nand:
    case Op.nor:
      return 'inverted';
    case Op.mux:
    case Op.select:
      return from.node === operand(nodes, node, 0) ? 'both' : 'straight';
    case Op.equal:
      return comparedSense(netlist, node, from);
    case Op.notEqual:
      return through('inverted', comparedSense(netlist, node, from));
    default:
      return passing.has(nodes.op[node]) ? 'straight' : 'both';
  }
}

const passing: ReadonlySet<number> = new Set<number>([
  Op.net,
  Op.delay,
  Op.concat,
  Op.slice,
  Op.zeroExtend,
  Op.signExtend,
  Op.buf,
  Op.and,
  Op.or,
  Op.reduceAnd,
  Op.reduceOr,
]);

/** Equality with a constant is an and of the bits, each straight where the constant has 1 (definition 24). */
function comparedSense({ constants, nodes }: Netlist, node: NodeId, from: Bit): Sense {
  const [left, right] = [operand(nodes, node, 0), operand(nodes, node, 1)];
  const other = from.node === left ? right : left;
  if (left === right || nodes.op[other] !== Op.constant) return 'both';
  return digitAt(constants[nodes.aux[other]], from.bit) === '1' ? 'straight' : 'inverted';
}

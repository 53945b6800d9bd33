// A bit that turns over for every event: the sender inverts it, the receiver samples it through flip-flops in a row and one
// more, and compares the last two. What crosses is the change, so that no event is lost however short it was.

import type { Bit, NodeId, RegisterId } from '../netlist/netlist';
import { isWiring, Op } from '../netlist/operators';
import { type ReaderIndex, readersOf } from './bit-readers';
import { coneOperands, coneStart } from './cone-bits';
import { type Context, opOf, operandSources, sameBit } from './context';
import { dataSource } from './data-choices';
import { controlName } from './launches';
import type { Why } from './network';
import { registerBitOf } from './synchronizers';

/** `last`: the end of the row that samples `source`. Null where this is no toggle. */
export function toggleEvidence(readers: ReaderIndex, source: Bit, last: RegisterId): readonly Why[] | null {
  const { context } = readers;
  if (!turnsOver(context, source)) return null;
  const end: Bit = { node: context.netlist.registers[last].node, bit: 0 };
  if (context.nodes.width[end.node] !== 1) return null;
  for (const { register, bit } of readersOf(readers, end).flops) {
    const later: Bit = { node: context.netlist.registers[register].node, bit };
    if (!areCompared(readers, end, later)) continue;
    return [
      { reason: 'sender-turns-over', args: { sender: controlName(context, source) } },
      { reason: 'change-detected', args: { last: controlName(context, end), later: controlName(context, later) } },
    ];
  }
  return null;
}

/** Nodes looked at in a register's logic, and behind the row. */
const mostNodes = 64;

/** The register's next value is, under some condition, its own inverse. */
function turnsOver(context: Context, source: Bit): boolean {
  const held = registerBitOf(context, source);
  if (held === null) return false;
  const waiting = [coneStart(context, dataSource(context, held.register, held.bit))];
  for (let looked = 0; waiting.length > 0 && looked < mostNodes; looked++) {
    const bit = waiting.pop() as Bit;
    const operands = coneOperands(context, bit);
    const op = opOf(context, bit);
    const inverts = op === Op.not || op === Op.xor || op === Op.xnor || op === Op.notEqual || op === Op.equal;
    if (inverts && operands.some((operand) => sameBit(operand, source))) return true;
    waiting.push(...operands);
  }
  return false;
}

function areCompared({ context, fanout }: ReaderIndex, first: Bit, second: Bit): boolean {
  const { nodes } = context;
  const seen = new Set<NodeId>();
  const waiting: NodeId[] = [first.node];
  while (waiting.length > 0 && seen.size < mostNodes) {
    const node = waiting.pop() as NodeId;
    if (seen.has(node)) continue;
    seen.add(node);
    for (let entry = fanout.first[node]; entry < fanout.first[node + 1]; entry++) {
      const reader = fanout.reader[entry] as NodeId;
      const op = nodes.op[reader];
      if (isWiring(op) || op === Op.net || op === Op.buf || op === Op.not) waiting.push(reader);
      if (op !== Op.xor && op !== Op.xnor && op !== Op.notEqual && op !== Op.equal) continue;
      const heard = Array.from({ length: nodes.arity[reader] }, (_, operand) =>
        operandSources(context, reader, operand),
      );
      const hears = (bit: Bit) => heard.flat().some((one) => sameBit(one, bit));
      if (hears(first) && hears(second)) return true;
    }
  }
  return false;
}

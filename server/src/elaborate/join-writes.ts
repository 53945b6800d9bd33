// Several processes that write one memory kept as one content, a port each: their writes become one where all follow one
// clock edge and nothing else. Words that two of them write at one edge are unknown where they differ, whichever process
// comes last. Anything else is refused at its place, and what the memory holds is unknown.

import { allX } from '../netlist/four-state';
import { contentBits } from '../netlist/memory-contents';
import { type NodeId, operand } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { Op, type OpCode } from '../netlist/operators';
import { delayIndex } from './continuous';
import type { ModuleDraft, RegisterDraft } from './module-draft';
import { holdNode } from './draft-nodes';
import { driveHole } from './processes';
import type { ApartReason } from './reasons';
import type { ArrayMemory } from './scope';

/** More ports make too many orders. */
const mostPorts = 16;

/** The registers, those of one memory joined or gone. */
export function joinWrites(draft: ModuleDraft, registers: readonly RegisterDraft[]): readonly RegisterDraft[] {
  let all = registers;
  for (const { array } of draft.arrays) {
    const { memory } = array;
    if (memory === null) continue;
    const own = all.filter(({ signal }) => signal === memory.signal.index);
    if (own.length < 2) continue;
    const apart = apartBy(draft, own);
    const others = all.filter((register) => !own.includes(register));
    if (apart === null) {
      all = [...others, joined(draft, memory, own)];
      continue;
    }
    refuse(draft, own, apart);
    all = others;
  }
  return all;
}

function apartBy(draft: ModuleDraft, [first, ...others]: readonly RegisterDraft[]): ApartReason | null {
  const all = [first, ...others];
  if (others.length >= mostPorts) return 'count';
  const { clock } = first;
  if (others.some((other) => other.clock.node !== clock.node || other.clock.edge !== clock.edge)) return 'clock';
  if (all.some(({ asynchronous, resetsInEnable }) => asynchronous.length + resetsInEnable.length > 0)) return 'reset';
  if (all.some((one) => delayOf(draft, one) !== delayOf(draft, first))) return 'delay';
  const isBlocking = ({ process, signal }: RegisterDraft) =>
    draft.processes[process].assignments.some((one) => one.signal === signal && one.blocking);
  return all.some(isBlocking) ? 'blocking' : null;
}

function delayOf(draft: ModuleDraft, { delay }: RegisterDraft): number {
  return delay === null ? -1 : delayIndex(draft, delay.scope, delay.table);
}

function refuse(draft: ModuleDraft, own: readonly RegisterDraft[], why: ApartReason): void {
  const { process, sampleAt, signal } = own[own.length - 1];
  const name = draft.signals[signal].name;
  const complaint = draft.log.add('memory-written-apart', { name, why }, draft.source.place(sampleAt));
  driveHole(draft, draft.processes[process], signal, sampleAt, complaint);
}

/** Each process writes last in one of the orders, so that words of which several have written one agree on nothing. */
function joined(draft: ModuleDraft, { number, signal }: ArrayMemory, own: readonly RegisterDraft[]): RegisterDraft {
  const { nodes, source } = draft;
  const [first] = own;
  const place = source.place(first.sampleAt);
  const kept = holdNode(draft, first.process, signal, { low: 0, width: contentBits }, first.sampleAt);
  const orders = own.map((last) => [...own.filter((one) => one !== last), last]);
  const results = orders.map((order) => order.reduce((base, register) => rebased(draft, register, base), kept));
  const any = nodes.constant(allX(results.length), place);
  const data = nodes.add(Op.memoryPick, contentBits, [any, ...results], number, place);
  return { ...first, data, enables: own.flatMap(({ enables }) => enables) };
}

/** What the register takes over, made from another content than the one that its own process keeps. */
function rebased({ holds, nodes: builder }: ModuleDraft, { data, process, signal }: RegisterDraft, base: NodeId) {
  const { nodes } = builder;
  const isKept = (node: NodeId) => {
    if (nodes.op[node] !== Op.register) return false;
    const hold = holds.entries[nodes.aux[node]];
    return hold.process === process && hold.signal === signal;
  };
  const known = new Map<NodeId, NodeId>();
  const waiting: NodeId[] = [data];
  for (let node = waiting.at(-1); node !== undefined; node = waiting.at(-1)) {
    const operands = isName(nodes.op[node]) ? [] : operandsOf(builder, node);
    const missing = operands.filter((one) => !known.has(one));
    if (!known.has(node) && missing.length > 0) {
      waiting.push(...missing);
      continue;
    }
    waiting.pop();
    if (known.has(node)) continue;
    const made = operands.map((one) => known.get(one) ?? one);
    const isSame = made.every((one, index) => one === operands[index]);
    const again = () =>
      builder.add(
        nodes.op[node] as OpCode,
        nodes.width[node],
        made,
        nodes.aux[node],
        builder.places[nodes.place[node]],
      );
    known.set(node, isKept(node) ? base : isSame ? node : again());
  }
  return known.get(data) ?? data;
}

function operandsOf({ nodes }: NodeBuilder, node: NodeId): NodeId[] {
  return Array.from({ length: nodes.arity[node] }, (_, index) => operand(nodes, node, index));
}

/** A drafted name reads itself until it gets its meaning. */
function isName(op: number): boolean {
  return op === Op.net;
}

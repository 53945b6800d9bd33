// How names read inside a process: what its blocking assignments have given them so far, else the signal as everyone
// reads it. A read of what the process has not (or not on every path) assigned is recorded: it comes from outside.

import type { NodeId } from '../netlist/netlist';
import { concatOf, sliceOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { At } from '../syntax/tables';
import type { Algebra, FunctionCall, Reader, SignalBelow } from './algebra';
import { isCertain } from './conditions';
import { importNode, readNode } from './draft-nodes';
import { type Layer, type Slice, stretchesOf } from './environment';
import { fixedComparison } from './fixed-comparisons';
import type { LocalSignal } from './local-signal';
import { type ModuleDraft, notePort, type ReadLog } from './module-draft';
import { createNodeAlgebra } from './node-algebra';

/** `layer`: null for what has no assignments of its own before it (continuous assignments, connections). */
export function createNodeReader(draft: ModuleDraft, reads: ReadLog, layer: Layer | null): Reader<NodeId> {
  return {
    algebra: algebraOf(draft),
    read(signal, low, width, at) {
      if (layer === null) {
        recordRead(reads, signal, low, width, at);
        return readNode(draft, signal, { low, width }, at);
      }
      return readThrough(draft, reads, layer, signal, low, width, at);
    },
    readBelow: (below, low, width, at) => readBelow(draft, below, low, width, at),
    call: (call) => resultOf(draft, call, () => draft.followFunction(call, reads, layer)),
    indexed(array, at) {
      notePort(reads, { array, kind: 'read', at });
    },
    compared(comparison) {
      const value = fixedComparison(draft.nodes, comparison);
      if (value !== null) draft.comparisons.push({ node: comparison.result, value, at: comparison.expression.at });
    },
  };
}

/** A function of constants is one, by IEEE 1364-2005 to the letter (definition 15). */
function resultOf(
  { nodes, source }: ModuleDraft,
  { args, context, expression }: FunctionCall<NodeId>,
  follow: () => NodeId,
) {
  if (args.some((argument) => nodes.constantOf(argument) === null)) return follow();
  const constant = context.constant(expression);
  return constant?.kind === 'bits' ? nodes.constant(constant.bits, source.place(expression.at)) : follow();
}

const algebras = new WeakMap<ModuleDraft, Algebra<NodeId>>();

function algebraOf(draft: ModuleDraft): Algebra<NodeId> {
  const known = algebras.get(draft);
  if (known !== undefined) return known;
  const algebra = createNodeAlgebra(draft);
  algebras.set(draft, algebra);
  return algebra;
}

function readThrough(
  draft: ModuleDraft,
  reads: ReadLog,
  layer: Layer,
  signal: LocalSignal,
  low: number,
  width: number,
  at: At,
): NodeId {
  const parts = stretchesOf(layer, 'now', signal.index, { low, width }, draft.nodes).map((stretch) => {
    const { slice } = stretch;
    if (signal.isPrivate && slice !== null) return keptValue(draft, signal, slice, at) ?? slice.value;
    if (slice === null || !isCertain(draft.nodes, slice.assigned, 1)) {
      recordRead(reads, signal, stretch.low, stretch.width, at);
    }
    if (slice !== null) reads.innerReads.add(signal.index);
    return slice?.value ?? readNode(draft, signal, stretch, at);
  });
  return parts.length === 1 ? parts[0] : concatOf(draft.nodes, parts.reverse(), draft.source.place(at));
}

/**
 * What a static function or task has not assigned in this call is what an earlier call left, in an order that nobody
 * tells (IEEE 1364-2005 10.2.1): unknown. Null for everything else.
 */
function keptValue(draft: ModuleDraft, signal: LocalSignal, { assigned, width }: Slice, at: At): NodeId | null {
  if (!draft.kept.has(signal) || !isCertain(draft.nodes, assigned, 0)) return null;
  const place = draft.source.place(at);
  return draft.nodes.add(Op.hole, width, [], draft.log.add('kept-variable', { name: signal.name }, place), place);
}

function recordRead(log: ReadLog, signal: LocalSignal, low: number, width: number, at: At): void {
  const key = `${signal.index} ${low} ${width}`;
  if (log.readKeys.has(key)) return;
  log.readKeys.add(key);
  log.reads.push({ signal: signal.index, low, width, at });
}

function readBelow(draft: ModuleDraft, below: SignalBelow, low: number, width: number, at: At): NodeId {
  const entry = { kind: 'below', path: below.path, signal: below.signal } as const;
  const whole = importNode(draft, entry, below.width, at);
  return sliceOf(draft.nodes, whole, low, width, draft.source.place(at));
}

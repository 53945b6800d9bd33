// The input that opens a latch built from gates: one that holds off what sets and what clears it, each behind a gate of
// its own. Several such inputs are none: which of them is the clock and which an enable stands nowhere.

import { bitKey } from '../netlist/bit-key';
import type { Bit, NodeColumns, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBitPastBuffers } from '../netlist/trace';

export interface PairGate {
  readonly gate: Bit;
  /** The level at which the latch is open. */
  readonly active: 'high' | 'low';
  /** Those of the given controls that it holds off. */
  readonly controls: ReadonlySet<NodeId>;
}

/** `first` and `second`: nodes of one bit that act on one and on the other gate of the pair, at their level `active`. */
export function gateOfPair(
  nodes: NodeColumns,
  first: readonly NodeId[],
  second: readonly NodeId[],
  active: 'high' | 'low',
): PairGate | null {
  const idle = active === 'high' ? 0 : 1;
  const holdersOf = (control: NodeId) => holders(nodes, { node: control, bit: 0 }, idle);
  const [ofFirst, ofSecond] = [first, second].map(
    (controls) => new Map(controls.flatMap((node) => [...holdersOf(node)])),
  );
  const common = [...ofFirst.keys()].filter((key) => ofSecond.has(key));
  if (common.length !== 1) return null;
  const { bit, level } = ofFirst.get(common[0]) as Holder;
  return {
    gate: bit,
    active: level === 0 ? 'high' : 'low',
    controls: new Set([...first, ...second].filter((node) => holdersOf(node).has(common[0]))),
  };
}

/** A bit that alone, at this level, decides another. */
interface Holder {
  readonly bit: Bit;
  readonly level: 0 | 1;
}

/** By bit and level. A control without a gate in front is held by itself alone, which holds off nothing. */
function holders(nodes: NodeColumns, control: Bit, value: 0 | 1): Map<string, Holder> {
  const found = new Map<string, Holder>();
  const start = past(nodes, { bit: control, level: value });
  const waiting = inputsThatHold(nodes, start) ?? [];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const holder = past(nodes, next);
    const inputs = inputsThatHold(nodes, holder);
    if (inputs === null) found.set(`${bitKey(holder.bit)} ${holder.level}`, holder);
    else waiting.push(...inputs);
  }
  return found;
}

/** Back through wiring, buffers, delays and inverters. */
function past(nodes: NodeColumns, { bit, level }: Holder): Holder {
  let source = sourceBitPastBuffers(nodes, bit);
  let turned = level;
  for (let steps = 0; nodes.op[source.node] === Op.not && steps < nodes.count; steps++) {
    source = sourceBitPastBuffers(nodes, { node: nodes.pool[nodes.first[source.node]] as NodeId, bit: source.bit });
    turned = turned === 0 ? 1 : 0;
  }
  return { bit: source, level: turned };
}

/** Null for what is no gate that one input can hold at this level. */
function inputsThatHold(nodes: NodeColumns, { bit, level }: Holder): Holder[] | null {
  const holding = holdingLevel(nodes.op[bit.node], level);
  if (holding === null) return null;
  const first = nodes.first[bit.node];
  return Array.from(nodes.pool.subarray(first, first + nodes.arity[bit.node]), (node) => ({
    bit: { node: node as NodeId, bit: bit.bit },
    level: holding,
  }));
}

/** The level of an input that makes a gate give `level`, whatever its others are. */
function holdingLevel(op: number, level: 0 | 1): 0 | 1 | null {
  if ((op === Op.and && level === 0) || (op === Op.nand && level === 1)) return 0;
  if ((op === Op.or && level === 1) || (op === Op.nor && level === 0)) return 1;
  return null;
}

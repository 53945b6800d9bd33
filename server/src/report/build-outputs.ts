// `outputs[]` of the report: how each output port of the top is made, and whether it can pulse by itself. Decided per
// bit from what a walk back through logic ends at; constant bits say nothing about the form.

import type { Clock } from '../clocks/network';
import type { Bit, NodeColumns, Signal } from '../netlist/netlist';
import { topPorts } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { operandsOfBit, sourceBit, sourceBitPastBuffers } from '../netlist/trace';
import type { DesignFacts } from './design-facts';
import { isMonotone } from './monotone';
import type { ReportOutput } from './report';
import { inOrder } from '../explain/places';

export function buildOutputs(facts: DesignFacts): readonly ReportOutput[] {
  const index = indexBits(facts);
  const outputs = topPorts(facts.netlist).filter(({ port }) => port === 'output');
  return inOrder(outputs.map((signal) => buildOutput(facts, index, signal)));
}

type Form = ReportOutput['form'];

/** Bits by key: which carry a clock, and which glitch. */
interface BitIndex {
  readonly clocks: ReadonlyMap<string, Clock>;
  readonly glitching: ReadonlySet<string>;
  /** Names of signals of which not every transition was looked at. */
  readonly unsure: ReadonlySet<string>;
}

function indexBits({ netlist: { nodes }, network, hazards }: DesignFacts): BitIndex {
  return {
    clocks: new Map(network.clocks.map((clock) => [keyOf(sourceBit(nodes, clock.bit)), clock])),
    glitching: new Set(hazards.glitches.map(({ bit }) => keyOf(sourceBit(nodes, bit)))),
    unsure: new Set(hazards.limits.map(({ args }) => String(args.signal))),
  };
}

function keyOf({ node, bit }: Bit): string {
  return `${node}.${bit}`;
}

function buildOutput(facts: DesignFacts, index: BitIndex, signal: Signal): ReportOutput {
  const bits = Array.from({ length: signal.width }, (_, bit) =>
    sourceBit(facts.netlist.nodes, { node: signal.node, bit }),
  );
  const forms = bits.map((bit) => formOf(facts, index, bit)).filter((form) => form !== null);
  const free = bits.map((bit) => glitchFreeOf(facts, index, bit));
  return {
    name: signal.name,
    form: mixedOf(forms),
    glitchFree: free.includes(false) ? false : free.includes(null) ? null : true,
    span: facts.places.spanOf(signal.place),
  };
}

function mixedOf(forms: readonly Form[]): Form {
  const [first = 'through'] = forms;
  return forms.every((form) => form === first) ? first : 'mixed';
}

/** Null for a constant bit. */
function formOf({ netlist: { nodes } }: DesignFacts, index: BitIndex, bit: Bit): Form | null {
  const driver = sourceBitPastBuffers(nodes, bit);
  if (isStored(nodes, driver)) return 'registered';
  const leaves = leavesOf(nodes, bit);
  if (leaves.some((leaf) => isClockItself(index.clocks.get(keyOf(leaf))))) return 'clock';
  const stored = leaves.some((leaf) => isStored(nodes, leaf));
  const passed = leaves.some((leaf) => !isStored(nodes, leaf));
  if (stored && passed) return 'mixed';
  return stored ? 'decoded' : passed ? 'through' : null;
}

function isStored(nodes: NodeColumns, { node }: Bit): boolean {
  return nodes.op[node] === Op.register || nodes.op[node] === Op.latch;
}

/** A register that clocks something is still a register: only what is a clock from its beginning makes a clock output. */
function isClockItself(clock: Clock | undefined): boolean {
  return clock !== undefined && clock.kind !== 'derived';
}

/** Registers, latches, ports and black box outputs that logic behind `bit` ends at; constants are none. */
function leavesOf(nodes: NodeColumns, bit: Bit): readonly Bit[] {
  const seen = new Set<string>();
  const leaves: Bit[] = [];
  const pending: Bit[] = [bit];
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    if (seen.has(keyOf(next))) continue;
    seen.add(keyOf(next));
    const op = nodes.op[next.node];
    // What is left of an extension where wiring ends is the zero that it adds.
    if (op === Op.constant || op === Op.zeroExtend) continue;
    const operands = op <= Op.hole ? [] : operandsOfBit(nodes, next);
    if (operands.length === 0) leaves.push(next);
    else pending.push(...operands);
  }
  return leaves;
}

/**
 * A register's output changes once per edge. A decode is judged by the findings where several bits move, and by its
 * shape where one does; where neither can tell: null. A clock is judged by its gate. What a port passes on depends on
 * what drives the port: null.
 */
function glitchFreeOf(facts: DesignFacts, index: BitIndex, bit: Bit): boolean | null {
  const form = formOf(facts, index, bit);
  if (form === null || form === 'registered') return true;
  if (index.glitching.has(keyOf(bit))) return false;
  const clock = index.clocks.get(keyOf(bit));
  if (form === 'clock') return clock === undefined ? null : clock.gate === null || isSound(clock);
  if (!facts.hazards.isSearched) return null;
  const isWholly = form === 'decoded' && !index.unsure.has(facts.names.nameOf(bit) ?? '');
  return isWholly && isMonotone(facts.netlist, bit) ? true : null;
}

function isSound({ gate }: Clock): boolean {
  return gate?.verdict === 'sound' || gate?.verdict === 'strapped';
}

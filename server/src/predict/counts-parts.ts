// Which registers can be followed in one run (`counts-together.ts`): all sample an edge of the root itself, once per root
// period, and hear no latch, no ring of logic, no other clock and no input that moves. Registers that hear each other
// are one part; parts come after those they hear.

import { bitKey } from '../netlist/bit-key';
import type { NodeId, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import type { CountContext } from './counts-run';
import { type RegisterGroup, registerGroups } from './ratio-groups';
import { registerOperands, type SettledPlan, settledOperands } from './settled-plan';

export interface Part {
  /** Ascending; what is heard comes first. */
  readonly order: number;
  readonly registers: readonly RegisterId[];
  readonly hears: readonly Part[];
  readonly root: number;
  readonly sources: Sources;
}

export interface Sources {
  /** Every source that is heard, directly or not. */
  readonly nodes: ReadonlySet<NodeId>;
  /** The resets among them, which are released before a run begins. */
  readonly resets: string;
}

/** Parts by registers; absent what cannot be followed so. `everything`: the plan of the whole netlist. */
export function partsOf(context: CountContext, everything: SettledPlan): ReadonlyMap<RegisterId, Part> {
  const found = new Map<RegisterId, Part>();
  const groups = registerGroups(context.netlist);
  const byGroup: (Part | null)[] = [];
  const asked = createRestless(context);
  for (const group of groups) {
    const part = partOf(context, everything, asked, group, byGroup);
    byGroup.push(part);
    if (part !== null) for (const id of group.registers) found.set(id, part);
  }
  return found;
}

function partOf(
  context: CountContext,
  everything: SettledPlan,
  restless: Restless,
  { hears: indices, registers }: RegisterGroup,
  byGroup: readonly (Part | null)[],
): Part | null {
  const hears = indices.flatMap((index) => byGroup[index] ?? []);
  const root = rootOf(context, registers);
  if (root === null || hears.length < indices.length || hears.some((part) => part.root !== root)) return null;
  const own = sourcesHeard(everything, registers);
  if (own === null) return null;
  const sources = joined(hears, own, restless);
  const isForeign = [...sources.nodes].some((node) => restless.isForeign(node, root));
  return isForeign ? null : { order: byGroup.length, registers, hears, root, sources };
}

/** The root that drives the clock of all of them as it is; null where one has another, or an output that is not timed. */
function rootOf({ arrivals, drive, netlist, network }: CountContext, registers: readonly RegisterId[]): number | null {
  const root = network.registers[registers[0]].root?.root ?? null;
  const clock = drive.clocks.find((driven) => driven.root === root);
  if (root === null || clock === undefined) return null;
  const source = bitKey(sourceBit(netlist.nodes, clock.bit));
  const isPlain = registers.every((id) => {
    const { asynchronous, clock: pin } = netlist.registers[id];
    const { fall, rise } = arrivals.outputOf(id);
    return (
      network.registers[id].root?.root === root &&
      bitKey(sourceBit(netlist.nodes, pin)) === source &&
      asynchronous.every(({ control }) => isDriven(netlist.nodes.op[sourceBit(netlist.nodes, control).node])) &&
      rise !== null &&
      fall !== null
    );
  });
  return isPlain ? root : null;
}

function isDriven(op: number): boolean {
  return op === Op.constant || op === Op.input || op === Op.undriven || op === Op.blackBox;
}

/** What the registers hear between two edges, but registers; null where a latch or a ring of logic is among it. */
function sourcesHeard(
  { knotOf, netlist, positionOf }: SettledPlan,
  registers: readonly RegisterId[],
): readonly NodeId[] | null {
  const seen = new Set(registers.flatMap((id) => registerOperands(netlist.registers[id])));
  const sources: NodeId[] = [];
  for (const node of seen) {
    const op = netlist.nodes.op[node];
    if (op === Op.latch || knotOf[positionOf[node]] >= 0) return null;
    if (op === Op.input || op === Op.undriven || op === Op.blackBox) sources.push(node);
    for (const operand of settledOperands(netlist, node)) seen.add(operand);
  }
  return sources;
}

/** Mostly those of the part that hears most, which are then shared. */
function joined(hears: readonly Part[], own: readonly NodeId[], { resetsOf }: Restless): Sources {
  const [first, ...others] = hears
    .map(({ sources }) => sources)
    .sort((left, right) => right.nodes.size - left.nodes.size);
  const base = first ?? { nodes: new Set(), resets: '' };
  const more = [...own, ...others.flatMap((each) => (each === first ? [] : [...each.nodes]))];
  if (more.every((node) => base.nodes.has(node))) return base;
  const nodes = new Set([...base.nodes, ...more]);
  return { nodes, resets: resetsOf(nodes) };
}

interface Restless {
  /** Another clock than the root's, or an input that moves. */
  isForeign(node: NodeId, root: number): boolean;
  resetsOf(nodes: ReadonlySet<NodeId>): string;
}

function createRestless({ drive, inputs, netlist }: CountContext): Restless {
  const nodeOf = (bit: Parameters<typeof sourceBit>[1]): NodeId => sourceBit(netlist.nodes, bit).node;
  const moving = new Set(drive.inputs.flatMap(({ moves, signal }) => (moves === null ? [] : [inputs.get(signal)])));
  const clocks = drive.clocks.map(({ bit, root }) => ({ node: nodeOf(bit), root }));
  const resets = drive.resets.map(({ bit }) => nodeOf(bit));
  return {
    isForeign: (node, root) => moving.has(node) || clocks.some((clock) => clock.node === node && clock.root !== root),
    resetsOf: (nodes) => resets.flatMap((node, index) => (nodes.has(node) ? [index] : [])).join(),
  };
}

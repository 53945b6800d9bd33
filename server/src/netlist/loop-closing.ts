// Whether a combinational loop is ever closed (definition 18 of the project). Two units that share an adder in opposite
// order make a loop of the drawing that no select closes; so do two gates of which one listens while an input is 1 and
// the other while it is 0. Inputs and state are set bit by bit, only where a loop still hangs on them, until the loop
// is cut or nothing is left that could cut it.

import { createBitGraph, loopsOf } from './bit-graph';
import { bitKey } from './bit-key';
import { coneOf, type SettingCone, settleCone } from './setting-cone';
import { isUnknownBit, type SettledLoop, visitControls, visitHeard } from './loop-closing-edges';
import type { Bit, Netlist } from './netlist';
import type { NodeOrder } from './order';
import { visitOperandsOfBit } from './trace';

/**
 * `yes`: some setting of what the loop hangs on closes it. `never`: none does. `unknown`: it could not be told within
 * the work for one loop, or hangs on another loop that nothing decides.
 */
export type Closing = 'yes' | 'never' | 'unknown';

/** `loop`: bits that hear each other, with `order` of the same netlist. */
export function closingOf(netlist: Netlist, order: NodeOrder, loop: readonly Bit[]): Closing {
  const cone = coneOf(netlist.nodes, order, loop);
  const waiting: Setting[] = [new Map()];
  let workLeft = mostWork;
  let isUndecided = false;
  for (let setting = waiting.pop(); setting !== undefined; setting = waiting.pop()) {
    const { values, rounds } = settleCone(netlist, cone, setting);
    workLeft -= rounds * cone.nodes.length + loop.length;
    const left = whatIsLeft({ netlist, cone, values }, loop);
    if (left.kind === 'closed') return 'yes';
    if (left.kind === 'undecided') isUndecided = true;
    if (left.kind !== 'hangs') continue;
    if (workLeft < 0) return 'unknown';
    for (const value of [0, 1] as const) waiting.push(new Map(setting).set(bitKey(left.on), value));
  }
  return isUndecided ? 'unknown' : 'never';
}

/** Values of bits of ports and state, by `bitKey`. */
type Setting = ReadonlyMap<number, 0 | 1>;

/** Node evaluations spent on one loop; above it the answer is `unknown`. */
const mostWork = 400_000;

type Left =
  | { readonly kind: 'cut' }
  | { readonly kind: 'closed' }
  /** What could still cut it hangs on this bit, which is not set yet. */
  | { readonly kind: 'hangs'; readonly on: Bit }
  /** What could still cut it hangs on nothing that can be set. */
  | { readonly kind: 'undecided' };

function whatIsLeft(settled: SettledLoop, loop: readonly Bit[]): Left {
  const unknown = loop.filter((bit) => isUnknownBit(settled, bit));
  const hear = (bit: Bit, visit: (node: Bit['node'], bit: number) => void) => visitHeard(settled, bit, visit);
  const loops = loopsOf(createBitGraph(unknown, hear));
  if (loops.length === 0) return { kind: 'cut' };
  const controls = loops.flatMap((bits) => controlsInto(settled, bits));
  const controlled = new Set(controls.map(({ of }) => bitKey(of)));
  const uncut = loops.flat().filter((bit) => !controlled.has(bitKey(bit)));
  if (loopsOf(createBitGraph(uncut, hear)).length > 0) return { kind: 'closed' };
  const on = firstUnset(
    settled,
    controls.map(({ control }) => control),
  );
  return on === null ? { kind: 'undecided' } : { kind: 'hangs', on };
}

/** Controls from outside: two bits of one loop at one gate do not cut each other for good. */
function controlsInto(settled: SettledLoop, loop: readonly Bit[]): { readonly of: Bit; readonly control: Bit }[] {
  const members = new Set(loop.map(bitKey));
  const found: { of: Bit; control: Bit }[] = [];
  for (const of of loop) {
    visitControls(settled, of, (node, bit) => {
      if (!members.has(bitKey({ node, bit }))) found.push({ of, control: { node, bit } });
    });
  }
  return found;
}

/** The nearest unset bit that these unknown bits hang on. */
function firstUnset(settled: SettledLoop, from: readonly Bit[]): Bit | null {
  const { nodes } = settled.netlist;
  const queue = [...from];
  const seen = new Set(queue.map(bitKey));
  for (let next = 0; next < queue.length; next++) {
    const bit = queue[next];
    if (isFreeIn(settled.cone, bit)) return bit;
    visitOperandsOfBit(nodes, bit, (node, index) => {
      const heard = { node, bit: index };
      if (seen.has(bitKey(heard)) || !isUnknownBit(settled, heard)) return;
      seen.add(bitKey(heard));
      queue.push(heard);
    });
  }
  return null;
}

function isFreeIn(cone: SettingCone, { node }: Bit): boolean {
  return cone.free.has(cone.positionOf.get(node) as number);
}

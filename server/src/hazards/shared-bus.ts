// Whether two drivers of a shared net that can both let go drive against each other (definition 41): some levels of the
// ports let both through, with data that may differ. Two that only ever pull to one level, as on an open-drain wire, do
// not. What hangs on registers or black boxes is not looked at: which of their values come together stands elsewhere.

import { bitKey } from '../netlist/bit-key';
import { labelMatch } from '../netlist/evaluate-choice';
import { type Bits, digitAt } from '../netlist/four-state';
import type { Bit, Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { NodeOrder } from '../netlist/order';
import { coneOf, type ConeValues, type SettingCone, settleCone } from '../netlist/setting-cone';
import { sourceBitPastBuffers, visitOperandsOfBit, wiringStep } from '../netlist/trace';

/** Levels of port bits under which both drive. */
export type Clash = readonly { readonly bit: Bit; readonly level: 0 | 1 }[];

/** `drivers`: bits that drive one bit of a net. Null where they never clash, and where it was not found out. */
export function clashOf(netlist: Netlist, order: NodeOrder, drivers: readonly [Bit, Bit]): Clash | null {
  const cone = coneOf(netlist.nodes, order, drivers);
  const ports = portsIn(netlist, cone);
  const waiting: ReadonlyMap<number, 0 | 1>[] = [new Map()];
  let workLeft = mostWork;
  for (let setting = waiting.pop(); setting !== undefined; setting = waiting.pop()) {
    const { values, rounds } = settleCone(netlist, cone, setting);
    workLeft -= rounds * cone.nodes.length;
    const settled = { netlist, cone, values };
    const [left, right] = drivers.map((bit) => passOf(settled, bit));
    if (left.kind === 'released' || right.kind === 'released' || areAlike(settled, left, right)) continue;
    if (left.kind === 'drives' && right.kind === 'drives') return clashFrom(setting, ports);
    const on = firstPort(
      settled,
      ports,
      [left, right].flatMap((pass) => (pass.kind === 'open' ? pass.controls : [])),
    );
    if (on === null) continue;
    if (workLeft < 0) return null;
    for (const level of [0, 1] as const) waiting.push(new Map(setting).set(bitKey(on), level));
  }
  return null;
}

/** Node evaluations for one pair of drivers. */
const mostWork = 100_000;

interface Settled {
  readonly netlist: Netlist;
  readonly cone: SettingCone;
  readonly values: ConeValues;
}

type Pass =
  | { readonly kind: 'released' }
  /** `data`: the bit that comes through. */
  | { readonly kind: 'drives'; readonly data: Bit }
  /** It hangs on unknown bits of these nodes. */
  | { readonly kind: 'open'; readonly controls: readonly NodeId[] };

/** What a driver lets through, looked at through choices whose selects are known. */
function passOf(settled: Settled, driver: Bit): Pass {
  const { nodes } = settled.netlist;
  let { node, bit } = driver;
  for (;;) {
    const wired = wiringStep(nodes, { node, bit });
    const operandAt = (index: number) => nodes.pool[nodes.first[node] + index] as NodeId;
    if (wired !== null) ({ node, bit } = wired);
    else if (nodes.op[node] === Op.delay) node = operandAt(0);
    else if (isInout(settled.netlist, node)) return { kind: 'released' };
    else if (nodes.op[node] === Op.constant && digitAt(coneValue(settled, node), bit) === 'z')
      return { kind: 'released' };
    else {
      const choice = chosenOf(settled, node);
      if (choice.kind === 'none') return { kind: 'drives', data: { node, bit } };
      if (choice.kind === 'open') return { kind: 'open', controls: choice.controls };
      if (choice.operand === null) return { kind: 'released' };
      node = operandAt(choice.operand);
    }
  }
}

/** What drives a net from outside the top is taken to know when. */
function isInout({ nodes, signals }: Netlist, node: NodeId): boolean {
  return nodes.op[node] === Op.input && signals[nodes.aux[node]].port === 'inout';
}

type Chosen =
  | { readonly kind: 'none' }
  | { readonly kind: 'open'; readonly controls: readonly NodeId[] }
  /** Null: a tri-state that lets go. */
  | { readonly kind: 'taken'; readonly operand: number | null };

function chosenOf(settled: Settled, node: NodeId): Chosen {
  const { nodes } = settled.netlist;
  const operandAt = (index: number) => nodes.pool[nodes.first[node] + index] as NodeId;
  const op = nodes.op[node];
  if (op === Op.select) return armOf(settled, node);
  if (op !== Op.mux && op !== Op.tristate) return { kind: 'none' };
  const control = operandAt(op === Op.mux ? 0 : 1);
  const level = digitAt(coneValue(settled, control), 0);
  if (level !== '0' && level !== '1') return { kind: 'open', controls: [control] };
  if (op === Op.mux) return { kind: 'taken', operand: level === '1' ? 1 : 2 };
  return { kind: 'taken', operand: level === '1' ? 0 : null };
}

function armOf(settled: Settled, node: NodeId): Chosen {
  const { nodes, caseWildcards } = settled.netlist;
  const operandAt = (index: number) => nodes.pool[nodes.first[node] + index] as NodeId;
  const wildcards = nodes.aux[node] < 0 ? null : caseWildcards[nodes.aux[node]];
  for (let arm = 0; 2 * arm + 2 < nodes.arity[node]; arm++) {
    const label = operandAt(2 * arm + 1);
    const free = wildcards === null ? null : wildcards[arm];
    const match = labelMatch(coneValue(settled, operandAt(0)), coneValue(settled, label), free);
    if (match === 'yes') return { kind: 'taken', operand: 2 * arm + 2 };
    if (match === 'perhaps') return { kind: 'open', controls: [operandAt(0), label] };
  }
  return { kind: 'taken', operand: nodes.arity[node] - 1 };
}

function coneValue({ cone, values }: Settled, node: NodeId): Bits {
  return values[cone.positionOf.get(node) as number];
}

/** The same bit, or the same known level, from both. */
function areAlike(settled: Settled, left: Pass, right: Pass): boolean {
  if (left.kind !== 'drives' || right.kind !== 'drives') return false;
  const [first, second] = [left, right].map(({ data }) => sourceBitPastBuffers(settled.netlist.nodes, data));
  if (bitKey(first) === bitKey(second)) return true;
  const [one, other] = [left, right].map(({ data }) => digitAt(coneValue(settled, data.node), data.bit));
  return one === other && (one === '0' || one === '1');
}

/** Bits of top-level ports in the cone, by key. */
function portsIn({ nodes }: Netlist, cone: SettingCone): ReadonlyMap<number, Bit> {
  const bits = [...cone.free.values()].flat().filter(({ node }) => nodes.op[node] === Op.input);
  return new Map(bits.map((bit) => [bitKey(bit), bit]));
}

/** The nearest port bit not yet set that these nodes hang on. */
function firstPort(settled: Settled, ports: ReadonlyMap<number, Bit>, controls: readonly NodeId[]): Bit | null {
  const { nodes } = settled.netlist;
  const queue = controls.flatMap((node) => Array.from({ length: nodes.width[node] }, (_, bit) => ({ node, bit })));
  const seen = new Set(queue.map(bitKey));
  for (let next = 0; next < queue.length; next++) {
    const bit = queue[next];
    if (digitAt(coneValue(settled, bit.node), bit.bit) !== 'x') continue;
    if (ports.has(bitKey(bit))) return bit;
    visitOperandsOfBit(nodes, bit, (node, index) => {
      const heard = { node, bit: index };
      if (seen.has(bitKey(heard)) || settled.cone.positionOf.get(node) === undefined) return;
      seen.add(bitKey(heard));
      queue.push(heard);
    });
  }
  return null;
}

function clashFrom(setting: ReadonlyMap<number, 0 | 1>, ports: ReadonlyMap<number, Bit>): Clash {
  return [...setting].flatMap(([key, level]) => {
    const bit = ports.get(key);
    return bit === undefined ? [] : [{ bit, level }];
  });
}

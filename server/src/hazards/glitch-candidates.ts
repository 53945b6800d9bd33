// Which signals can glitch at all: outputs of logic that hears two or more register bits of one root and leads to an
// end that cares. One candidate per driving bit, with all its ends. For data of the same root only named nets count, and
// only where not every bit arrives with the root's own edge: settling within the period is what logic between registers
// of one clock does, and its period is judged elsewhere.

import type { ClockNetwork } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import type { BitNames } from '../netlist/bit-names';
import type { Bit, Netlist } from '../netlist/netlist';
import { isSource, isWiring, Op } from '../netlist/operators';
import { operandsOfBit, sourceBit, wiringStep } from '../netlist/trace';
import type { Place } from '../text/place';
import type { EndKind } from './glitch';
import type { EndPin } from './glitch-ends';
import { createParts, type Part, supportOf, type Workshop } from './glitch-parts';
import { literalOf } from './glitch-logic';
import { shownBits } from './glitch-release';
import { createScene, type Scene } from './glitch-scene';
import { sourcesOf } from './glitch-sources';

export interface Candidate {
  readonly bit: Bit;
  readonly signal: string;
  readonly place: Place;
  readonly scene: Scene;
  /** Ends with their kind as seen from the scene's root. */
  readonly ends: readonly EndPin[];
}

/** In order of the ends; one per driving bit and root. */
export function* findCandidates(
  workshop: Workshop,
  ends: readonly EndPin[],
  names: BitNames,
): Generator<void, readonly Candidate[]> {
  const { netlist, network } = workshop;
  const parts = network.roots.map((_, root) => createParts(workshop, root));
  const candidates: Candidate[] = [];
  let pace = 0;
  for (const { bit, pins } of gatherEnds(netlist, ends)) {
    for (const root of rootsBehind(workshop, bit)) {
      const found = candidateAt(workshop, { root, part: parts[root], names }, bit, pins);
      if (found !== null) candidates.push(found);
    }
    pace += 1;
    if (pace % endsPerTurn === 0) yield;
  }
  return candidates;
}

const endsPerTurn = 64;

interface View {
  readonly root: number;
  readonly part: (variable: number) => Part;
  readonly names: BitNames;
}

interface GatheredEnds {
  readonly bit: Bit;
  readonly pins: readonly EndPin[];
}

/** Ends by the operator bit that drives them; those that a register, port or constant drives have none. */
function gatherEnds(netlist: Netlist, ends: readonly EndPin[]): GatheredEnds[] {
  const gathered = new Map<number, { bit: Bit; pins: EndPin[] }>();
  const add = (bit: Bit, pin: EndPin): void => {
    const key = bitKey(bit);
    const entry = gathered.get(key) ?? { bit, pins: [] };
    gathered.set(key, entry);
    if (!entry.pins.some((other) => other.kind === pin.kind && other.signal === pin.signal)) entry.pins.push(pin);
  };
  for (const pin of ends) {
    for (const bit of driversOf(netlist, pin)) {
      if (isOperator(netlist, bit)) add(bit, pin);
    }
  }
  return [...gathered.values()];
}

function driversOf(netlist: Netlist, pin: EndPin): readonly Bit[] {
  return pin.kind === 'data' ? bitsBehindData(netlist, pin) : shownBits(netlist, pin.bit);
}

/** The pin's own driver, and the named nets nearest to it. */
function bitsBehindData(netlist: Netlist, pin: EndPin): Bit[] {
  const { nodes } = netlist;
  const found: Bit[] = [sourceBit(nodes, pin.bit)];
  const seen = new Set<number>();
  const waiting: Bit[] = [pin.bit];
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    if (seen.has(bitKey(bit)) || isSource(nodes.op[bit.node])) continue;
    seen.add(bitKey(bit));
    const next = wiringStep(nodes, bit);
    if (nodes.op[bit.node] === Op.net) found.push(sourceBit(nodes, bit));
    else waiting.push(...(next === null ? operandsOfBit(nodes, bit) : [next]));
  }
  return found;
}

function isOperator({ nodes }: Netlist, { node }: Bit): boolean {
  const op = nodes.op[node];
  return !isSource(op) && !isWiring(op);
}

/** Roots of the register and latch bits that a bit hears, through cells too; ascending. */
function rootsBehind(workshop: Workshop, bit: Bit): number[] {
  const found = new Map<number, number>();
  const seen = new Set<number>();
  const waiting = [...supportOf(workshop, literalOf(workshop.logic, bit))];
  for (let variable = waiting.pop(); variable !== undefined; variable = waiting.pop()) {
    if (seen.has(variable)) continue;
    seen.add(variable);
    const root = rootOf(workshop, variable);
    if (root !== null) found.set(root, (found.get(root) ?? 0) + 1);
    const { kind, bit: own } = workshop.logic.variables[variable];
    if (kind === 'cell') {
      for (const heard of operandsOfBit(workshop.netlist.nodes, own)) {
        waiting.push(...supportOf(workshop, literalOf(workshop.logic, heard)));
      }
    }
  }
  return [...found.keys()].sort((left, right) => left - right);
}

/** The root of a stored bit; null for what is none or has no single root. */
function rootOf({ netlist, network, logic }: Workshop, variable: number): number | null {
  const { bit, kind } = logic.variables[variable];
  const aux = netlist.nodes.aux[bit.node];
  if (kind === 'latch') return network.latches[aux].root;
  if (kind !== 'register') return null;
  const { roots } = network.registers[aux];
  return roots.length === 1 ? roots[0] : null;
}

function candidateAt(
  workshop: Workshop,
  { root, part, names }: View,
  bit: Bit,
  pins: readonly EndPin[],
): Candidate | null {
  const scene = createScene(workshop, root, part, literalOf(workshop.logic, bit));
  const heard = sourcesOf(scene);
  const stored = heard.filter((variable) => isStored(part(variable)));
  if (stored.length < 2) return null;
  const name = names.canonicalNameOf(bit);
  const isGated = heard.some((variable) => part(variable).kind === 'root');
  const isSkewed = stored.some((variable) => stageOf(workshop, variable) > 1);
  const ends = pins.flatMap((pin) => {
    const kind = kindFor(workshop.network, pin, root);
    // A gate that the clock itself passes is judged as a gated clock.
    if (kind === null || (kind === 'clock' && isGated)) return [];
    if (kind === 'data' && (name === null || !isSkewed)) return [];
    return [{ ...pin, kind }];
  });
  if (ends.length === 0) return null;
  const place = workshop.netlist.places[workshop.netlist.nodes.place[bit.node]] ?? ends[0].place;
  return { bit, signal: name ?? ends[0].signal, place, scene, ends };
}

function isStored(part: Part): boolean {
  return part.kind === 'register' || part.kind === 'latch';
}

function stageOf({ netlist, network, logic }: Workshop, variable: number): number {
  const { bit, kind } = logic.variables[variable];
  return kind === 'register' ? network.registers[netlist.nodes.aux[bit.node]].stage : 1;
}

/** Null where the end has another finding's relation to this root: stated as related, or keeping still. */
function kindFor(network: ClockNetwork, { kind, root: reader, stillFrom = [] }: EndPin, root: number): EndKind | null {
  if (kind !== 'data' || reader === root) return kind;
  if (stillFrom.some((domain) => network.domains[domain].roots.includes(root))) return null;
  if (reader === null) return 'crossing';
  const isRelated = network.domains.some(
    ({ roots, related }) =>
      roots.includes(root) &&
      (roots.includes(reader) || related.some((other) => network.domains[other].roots.includes(reader))),
  );
  return isRelated ? null : 'crossing';
}

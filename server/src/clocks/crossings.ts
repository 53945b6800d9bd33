// Definition 5, last sentence: every transfer between domains, as one entry per receiving register and sending domain.
// Tells plain rows of flip-flops; Gray codes, handshakes and held enables are not told here and stay `none`.

import { bitKey } from '../netlist/bit-key';
import { signalSliceName } from '../netlist/bit-names';
import type { Bit, Register, RegisterId } from '../netlist/netlist';
import { isSource, Op } from '../netlist/operators';
import { type ReaderIndex, createReaderIndex, readersOf } from './bit-readers';
import { coneOperands, coneStart } from './cone-bits';
import { type Context, opOf } from './context';
import { type DomainOfNode, domainReach, type DomainsAt } from './domain-reach';
import type { DomainList } from './domains';
import { isStatedStatic } from './launches';
import {
  comparePlaces,
  type Crossing,
  type DomainId,
  type LatchClocking,
  type RegisterClocking,
  type SynchronizerKind,
  type Why,
} from './network';
import type { Pace } from './pace';
import { sampledBit } from './synchronizers';

/** What the search needs of the network found so far. */
export interface Clocked {
  readonly context: Context;
  readonly domains: DomainList;
  readonly registers: readonly RegisterClocking[];
  readonly latches: readonly LatchClocking[];
}

export function* findCrossings(clocked: Clocked, pace: Pace): Generator<void, Crossing[]> {
  const { context, domains, registers } = clocked;
  if (domains.domains.length < 2) return [];
  const domainOf = domainOfNode(clocked);
  const reach = yield* domainReach(context.netlist, domainOf, pace);
  const readers = createReaderIndex(context);
  const search: Search = { clocked, domainOf, reach, readers };
  const found: Crossing[] = [];
  for (const { register, domain } of registers) {
    if (domain === null) continue;
    found.push(...crossingsInto(search, context.netlist.registers[register], domain));
    if (pace.spend(10)) yield;
  }
  return found.sort((left, right) => comparePlaces(left.place, right.place) || left.to - right.to);
}

interface Search {
  readonly clocked: Clocked;
  readonly domainOf: DomainOfNode;
  readonly reach: DomainsAt;
  readonly readers: ReaderIndex;
}

function domainOfNode({ context, registers, latches }: Clocked): DomainOfNode {
  return (node) => {
    const aux = context.nodes.aux[node];
    return context.nodes.op[node] === Op.register ? registers[aux].domain : latches[aux].domain;
  };
}

function crossingsInto(search: Search, to: Register, domain: DomainId): Crossing[] {
  const foreign = (other: DomainId) => isForeign(search.clocked.domains, other, domain);
  const senders = search.reach(to.data).filter(foreign);
  if (senders.length === 0) return [];
  const lanes = Array.from({ length: to.width }, (_, bit) => laneOf(search, to, bit, foreign));
  return senders.flatMap((from) => crossingFrom(search, to, domain, from, lanes) ?? []);
}

/** Of another domain that nobody stated to be related. */
function isForeign({ domains }: DomainList, from: DomainId, to: DomainId): boolean {
  return from !== to && !domains[from].related.includes(to);
}

/** What one bit of a receiving register hears of other domains. */
interface Lane {
  readonly bit: number;
  /** Register and latch bits of other domains. */
  readonly sources: readonly Bit[];
  /** Whether the bit samples its one source unchanged. */
  readonly isDirect: boolean;
}

function laneOf(search: Search, to: Register, bit: number, foreign: (domain: DomainId) => boolean): Lane {
  const sampled = sampledBit(search.clocked.context, { register: to, bit });
  const isForeignBit = (source: Bit) => {
    const domain = isStorage(search.clocked.context, source) ? search.domainOf(source.node) : null;
    return domain !== null && foreign(domain);
  };
  if (!sampled.inverted && isForeignBit(sampled.bit)) return { bit, sources: [sampled.bit], isDirect: true };
  const heard = foreignSources(search, { node: to.data, bit }, foreign).filter(isForeignBit);
  return { bit, sources: heard, isDirect: false };
}

function isStorage(context: Context, source: Bit): boolean {
  const op = opOf(context, source);
  return op === Op.register || op === Op.latch;
}

/** Sources of a bit's cone, looking only where the coarse reach says another domain is. */
function foreignSources({ clocked, reach }: Search, start: Bit, foreign: (domain: DomainId) => boolean): Bit[] {
  const { context } = clocked;
  const sources: Bit[] = [];
  const seen = new Set<number>();
  const waiting = [coneStart(context, start)];
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    if (seen.has(bitKey(bit)) || !reach(bit.node).some(foreign)) continue;
    seen.add(bitKey(bit));
    if (isSource(opOf(context, bit))) sources.push(bit);
    else for (const operand of coneOperands(context, bit)) waiting.push(operand);
  }
  return sources;
}

function crossingFrom(
  search: Search,
  to: Register,
  toDomain: DomainId,
  fromDomain: DomainId,
  lanes: readonly Lane[],
): Crossing | null {
  const isSender = ({ node }: Bit) => search.domainOf(node) === fromDomain;
  const heard = lanes.filter(({ sources }) => sources.some(isSender));
  const sources = new Map(heard.flatMap((lane) => lane.sources.filter(isSender)).map((bit) => [bitKey(bit), bit]));
  if (sources.size === 0) return null;
  const bits = [...sources.values()].sort((left, right) => left.node - right.node || left.bit - right.bit);
  const throughLogic = heard.some(({ isDirect }) => !isDirect);
  const depth = Math.min(...heard.map(({ bit }) => flopsInARow(search, to, bit)));
  const shape = { bits, throughLogic, depth };
  return {
    from: sendersOf(search.clocked.context, bits),
    to: to.id,
    fromDomain,
    toDomain,
    bits: bits.length,
    throughLogic,
    synchronizer: synchronizerKind(shape),
    depth,
    ...statusOf(search.clocked.context, shape),
    place: to.samplePlace,
  };
}

const deepestRow = 8;

/** How many flip-flops of the receiving domain follow each other from this bit on, each read by the next one alone. */
function flopsInARow({ clocked, readers }: Search, to: Register, bit: number): number {
  const { registers } = clocked;
  let current = { register: to.id, bit };
  for (let depth = 1; depth < deepestRow; depth++) {
    const { node } = clocked.context.netlist.registers[current.register];
    const { flops, others } = readersOf(readers, { node, bit: current.bit });
    const [next] = flops;
    if (others || flops.length !== 1 || registers[next.register].domain !== registers[to.id].domain) return depth;
    current = next;
  }
  return deepestRow;
}

interface Shape {
  readonly bits: readonly Bit[];
  readonly throughLogic: boolean;
  readonly depth: number;
}

/** One flip-flop behind logic is an ordinary register, not an attempt at a synchronizer. */
function synchronizerKind({ throughLogic, depth }: Shape): SynchronizerKind {
  if (depth >= 3) return 'three-flop';
  if (depth === 2) return 'two-flop';
  return throughLogic ? 'none' : 'one-flop';
}

/** Two flip-flops protect a single bit. Several bits each behind their own may still arrive in different periods. */
function statusOf(context: Context, { bits, throughLogic, depth }: Shape): Pick<Crossing, 'status' | 'evidence'> {
  if (bits.every((bit) => isStatedStatic(context, bit))) {
    return { status: 'accepted', evidence: [{ reason: 'sources-stated-static', args: {} }] };
  }
  const evidence: Why[] = [];
  if (depth >= 2) evidence.push({ reason: 'flops-in-a-row', args: { depth } });
  if (throughLogic) evidence.push({ reason: 'logic-before-first-flop', args: {} });
  if (depth < 2) evidence.push({ reason: 'read-after-one-flop', args: {} });
  if (bits.length > 1) evidence.push({ reason: 'several-bits', args: { bits: bits.length } });
  return { status: depth >= 2 && !throughLogic && bits.length === 1 ? 'protected' : 'bare', evidence };
}

/** One entry per sending register or latch, named by the stretch of it that is heard. `bits` ascending. */
function sendersOf(context: Context, bits: readonly Bit[]): Crossing['from'] {
  const { netlist, nodes } = context;
  const nodesInOrder = [...new Set(bits.map(({ node }) => node))];
  return nodesInOrder.map((node) => {
    const isRegister = nodes.op[node] === Op.register;
    const held = isRegister ? netlist.registers[nodes.aux[node]] : netlist.latches[nodes.aux[node]];
    const heard = bits.filter((bit) => bit.node === node).map(({ bit }) => bit);
    const [low, high] = [heard[0], heard[heard.length - 1]];
    const name = signalSliceName(netlist.signals[held.signal], held.low + low, high - low + 1);
    return { register: isRegister ? (held.id as RegisterId) : null, name };
  });
}

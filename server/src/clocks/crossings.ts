// Definition 5, last sentence: every transfer between domains, as one entry per receiving register and sending domain.
// What one crossing is worth: `crossing-status.ts`, `gray-code.ts`, `held-crossing.ts`.

import { bitKey } from '../netlist/bit-key';
import { contentInputs } from '../netlist/content-inputs';
import { type Bit, memoryHeldIn, type NodeId, type Register, type RegisterId } from '../netlist/netlist';
import { isSource, Op } from '../netlist/operators';
import { type ReaderIndex, createReaderIndex } from './bit-readers';
import { rowFrom } from './flop-row';
import { coneOperands, coneStart } from './cone-bits';
import { type Context, opOf } from './context';
import { type CrossingShape, grayCode, sendersOf, statusOf, synchronizerKind } from './crossing-status';
import { clearAt, dataSource } from './data-choices';
import { createBitReach, type DomainOfNode, nodeReach } from './domain-reach';
import { createDomainSets } from './domain-sets';
import type { DomainList } from './domains';
import { changesOneAtATime, type OneAtATime } from './gray-code';
import { guardedRead } from './guarded-read';
import { holdOf, type HoldQuestion } from './held-crossing';
import { comparePlaces, type Crossing, type DomainId, type LatchClocking, type RegisterClocking } from './network';
import type { Pace } from './pace';
import { sampledBit } from './synchronizers';
import { toggleEvidence } from './toggle-crossing';

/** What the search needs of the network found so far. */
export interface Clocked {
  readonly context: Context;
  readonly domains: DomainList;
  readonly registers: readonly RegisterClocking[];
  readonly latches: readonly LatchClocking[];
  /** Registers that hear another domain in order to guard a sound switch. */
  readonly guards: ReadonlySet<RegisterId>;
}

export function* findCrossings(clocked: Clocked, pace: Pace): Generator<void, Crossing[]> {
  const { context, domains, registers } = clocked;
  if (domains.domains.length < 2) return [];
  const domainOf = domainOfNode(clocked);
  const sets = createDomainSets();
  const reach = yield* nodeReach(context.netlist, domainOf, sets, pace);
  const bitReach = createBitReach(context, domainOf, sets, reach);
  const search: Search = {
    clocked,
    domainOf,
    heardByNode: (node) => sets.members(reach[node]),
    heardByBit: (bit) => sets.members(bitReach(bit)),
    readers: createReaderIndex(context),
    pace,
  };
  const found: Crossing[] = [];
  for (const { register, domain } of registers) {
    if (domain === null) continue;
    found.push(...(yield* crossingsInto(search, context.netlist.registers[register], domain)));
    if (pace.spend(10)) yield;
  }
  return found.sort((left, right) => comparePlaces(left.place, right.place) || left.to - right.to);
}

interface Search {
  readonly clocked: Clocked;
  readonly domainOf: DomainOfNode;
  readonly heardByNode: (node: NodeId) => readonly DomainId[];
  readonly heardByBit: (bit: Bit) => readonly DomainId[];
  readonly readers: ReaderIndex;
  readonly pace: Pace;
}

function domainOfNode({ context, registers, latches }: Clocked): DomainOfNode {
  const { op, aux } = context.nodes;
  return (node) => {
    if (op[node] === Op.register) return registers[aux[node]].domain;
    // A latch that nobody meant is a mistake of its own; its gate is no clock that something could cross from.
    return op[node] === Op.latch && latches[aux[node]].intended ? latches[aux[node]].domain : null;
  };
}

function* crossingsInto(search: Search, to: Register, domain: DomainId): Generator<void, Crossing[]> {
  const foreign = (other: DomainId) => isForeign(search.clocked.domains, other, domain);
  if (!search.heardByNode(to.data).some(foreign)) return [];
  const lanes = lanesOf(search, to, foreign);
  const senders = [...new Set(lanes.flatMap(({ senders }) => senders))].sort((left, right) => left - right);
  if (senders.length === 0) return [];
  const sources = foreignSources(search, to, foreign);
  const found: Crossing[] = [];
  for (const from of senders) {
    const ends = { to, toDomain: domain, fromDomain: from };
    const heard = {
      lanes: lanes.filter((lane) => lane.senders.includes(from)),
      bits: sources.filter(({ node }) => search.domainOf(node) === from),
    };
    found.push(yield* crossingFrom(search, ends, heard));
  }
  return found;
}

/** Of another domain that nobody stated to be related. */
function isForeign({ domains }: DomainList, from: DomainId, to: DomainId): boolean {
  return from !== to && !domains[from].related.includes(to);
}

/** What one bit of a receiving register hears of other domains; of a memory's content, what one bit that decides it hears. */
interface Lane {
  /** Of the register; the lowest for a content, which is taken as a whole. */
  readonly bit: number;
  readonly senders: readonly DomainId[];
  /** Whether all it hears of them is one bit, as it is or inverted: an inverter passes nothing on its way. */
  readonly isDirect: boolean;
}

function lanesOf(search: Search, to: Register, foreign: (domain: DomainId) => boolean): readonly Lane[] {
  const { netlist, nodes } = search.clocked.context;
  if (memoryHeldIn(netlist, to) === null) {
    return Array.from({ length: to.width }, (_, bit) => laneOf(search, to, bit, foreign));
  }
  return contentInputs(nodes, to.data).map((bit) => {
    return { bit: 0, senders: search.heardByBit(bit).filter(foreign), isDirect: false };
  });
}

function laneOf(search: Search, to: Register, bit: number, foreign: (domain: DomainId) => boolean): Lane {
  const senders = search.heardByBit({ node: to.data, bit }).filter(foreign);
  const sampled = sampledBit(search.clocked.context, { register: to, bit });
  const domain = search.domainOf(sampled.bit.node);
  const isForeignBit = domain !== null && foreign(domain);
  const clear = clearAt(search.clocked.context, dataSource(search.clocked.context, to, bit));
  const isClearOwn = clear === null || !search.heardByBit(clear.condition).some(foreign);
  return { bit, senders, isDirect: isForeignBit && isClearOwn };
}

/** Register and latch bits of other domains in a register's data, looking only where one of them can be. Ascending. */
function foreignSources(search: Search, to: Register, foreign: (domain: DomainId) => boolean): Bit[] {
  const { context } = search.clocked;
  const sources: Bit[] = [];
  const seen = new Set<number>();
  const waiting = Array.from({ length: to.width }, (_, bit) => coneStart(context, { node: to.data, bit }));
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    if (seen.has(bitKey(bit)) || !search.heardByNode(bit.node).some(foreign)) continue;
    seen.add(bitKey(bit));
    if (isSource(opOf(context, bit))) sources.push(bit);
    else for (const operand of coneOperands(context, bit)) waiting.push(operand);
  }
  return sources.sort((left, right) => left.node - right.node || left.bit - right.bit);
}

interface Ends {
  readonly to: Register;
  readonly toDomain: DomainId;
  readonly fromDomain: DomainId;
}

interface Heard {
  /** Those that hear the sending domain. */
  readonly lanes: readonly Lane[];
  /** What they hear of it. */
  readonly bits: readonly Bit[];
}

function* crossingFrom(search: Search, ends: Ends, heard: Heard): Generator<void, Crossing> {
  const { context } = search.clocked;
  const { to, toDomain, fromDomain } = ends;
  const { lanes, bits } = heard;
  const throughLogic = lanes.some(({ isDirect }) => !isDirect);
  const rows = lanes.map(({ bit }) => rowFrom(search.clocked.registers, search.readers, { register: to.id, bit }));
  const { length: depth, last } = rows.reduce((least, row) => (row.length < least.length ? row : least));
  const shape: CrossingShape = {
    bits,
    count: countOf(context, bits),
    throughLogic,
    depth,
    isGuard: search.clocked.guards.has(to.id),
  };
  const byShape = { synchronizer: synchronizerKind(shape), ...statusOf(context, shape) };
  const isBare = byShape.status === 'bare';
  const code = isBare && bits.length > 1 ? yield* codeOf(search, bits) : 'no';
  const protection = isBare
    ? (protectionOf(search, ends, heard, { ...shape, code }) ?? (yield* guardedReadOf(search, ends, heard)))
    : toggleOf(search, shape, byShape, last);
  return {
    from: sendersOf(context, bits),
    to: to.id,
    fromDomain,
    toDomain,
    bits: shape.count,
    throughLogic,
    depth,
    isGray: code === 'proven' && lanes.length === bits.length && !throughLogic,
    isBus: lanes.length > 1 && bits.length > 1 && code === 'no',
    source: bits.length === 1 ? bits[0] : null,
    last,
    ...byShape,
    ...protection,
    place: to.samplePlace,
  };
}

/** What is read of a memory is one word of it. */
function countOf({ netlist, nodes }: Context, bits: readonly Bit[]): number {
  const senders = [...new Set(bits.map(({ node }) => node))];
  return senders.reduce((sum, node) => {
    const memory = nodes.op[node] === Op.register ? memoryHeldIn(netlist, netlist.registers[nodes.aux[node]]) : null;
    return sum + (memory?.width ?? bits.filter((bit) => bit.node === node).length);
  }, 0);
}

type Protection = Pick<Crossing, 'synchronizer' | 'status' | 'evidence'>;

function codeOf({ clocked, pace }: Search, bits: readonly Bit[]): Generator<void, OneAtATime> {
  return changesOneAtATime(clocked.context, clocked.registers, bits, pace);
}

/** What protects bits that two flip-flops alone do not: a code that changes one bit at a time, an enable that waits. */
function protectionOf(
  search: Search,
  { to, toDomain, fromDomain }: Ends,
  { lanes, bits }: Heard,
  { code, depth, throughLogic }: CrossingShape & { readonly code: OneAtATime },
): Protection | null {
  if (code !== 'no' && depth >= 2 && !throughLogic) return grayCode(code, depth);
  return holdOf(
    questionOf(search, { to, toDomain, fromDomain }, bits),
    lanes.map(({ bit }) => bit),
  );
}

/** A change that crosses as a level: two flip-flops protect it, and the receiver looks for the change. */
function toggleOf(
  { readers }: Search,
  { bits, throughLogic }: CrossingShape,
  { evidence, status }: Protection,
  last: RegisterId,
): Protection | null {
  const found = status === 'protected' && !throughLogic ? toggleEvidence(readers, bits[0], last) : null;
  return found === null ? null : { synchronizer: 'toggle', status, evidence: [...evidence, ...found] };
}

function* guardedReadOf(search: Search, ends: Ends, { bits }: Heard): Generator<void, Protection | null> {
  const read = guardedRead(questionOf(search, ends, bits), bits);
  if (read === null) return null;
  const code = read.pointer.length === 1 ? 'proven' : yield* codeOf(search, read.pointer);
  if (code === 'no') return null;
  const [kind] = grayCode(code, 2).evidence;
  const names = sendersOf(search.clocked.context, read.pointer).map(({ name }) => name);
  return {
    synchronizer: 'gray',
    status: code === 'proven' ? 'protected' : 'assumed',
    evidence: [
      { reason: 'address-follows-pointer', args: { address: read.address, pointer: names.join(', ') } },
      {
        reason: kind.reason === 'one-bit-at-a-time' ? 'pointer-one-bit-at-a-time' : 'pointer-one-bit-at-a-time-so-far',
        args: { pointer: names.join(', ') },
      },
    ],
  };
}

function questionOf(search: Search, { fromDomain, to, toDomain }: Ends, bits: readonly Bit[]): HoldQuestion {
  const { context } = search.clocked;
  const senders = bits.filter((bit) => opOf(context, bit) === Op.register).map(({ node }) => context.nodes.aux[node]);
  return {
    context,
    domainOf: search.domainOf,
    hears: (bit) => search.heardByBit(bit).includes(fromDomain),
    to,
    toDomain,
    fromDomain,
    senders: [...new Set(senders)] as RegisterId[],
  };
}

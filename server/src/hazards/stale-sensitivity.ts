// `stale-sensitivity`: a process on levels whose list leaves out what the process reads. By IEEE 1364-2005 9.7 the process
// then runs only when something in its list changes, and its outputs are stale until then; hardware made from it answers
// at once. Silent for `@*` (9.7.5) and for what the process itself assigns: a read of that is order within it, or a loop.

import { bitKey } from '../netlist/bit-key';
import { signalSliceName } from '../netlist/bit-names';
import type { Bit, Netlist, Process } from '../netlist/netlist';
import { isSource, Op } from '../netlist/operators';
import { sourceBit, visitOperandsOfBit } from '../netlist/trace';
import type { FindingRule, RawFinding } from './context';
import { instancePath } from './subjects';

export const staleSensitivity: FindingRule = {
  id: 'stale-sensitivity',
  find: ({ netlist }) => netlist.processes.flatMap((process) => findOne(netlist, process)),
};

function findOne(netlist: Netlist, process: Process): RawFinding[] {
  const isLevel = process.kind === 'combinational' || process.kind === 'latch';
  if (!isLevel || process.flavor !== 'always' || process.implicitSensitivity) return [];
  const [first] = process.sensitivity;
  const missing = process.reads.filter((read) => isMissing(netlist, process, read));
  if (first === undefined || missing.length === 0) return [];
  const named = (one: Stretch) => signalSliceName(netlist.signals[one.signal], one.low, one.width);
  const targets = [...new Set(process.assignments.map(named))];
  const left = [...new Set(missing.map(named))];
  return [
    {
      id: 'stale-sensitivity',
      certainty: null,
      signals: [...targets, ...left],
      instance: instancePath(netlist, process.instance),
      place: first.place,
      related: missing.map((read) => ({
        place: read.place,
        why: { reason: 'read-unlisted', args: { signal: named(read) } },
      })),
      facts: { targets, missing: left, listed: process.sensitivity.map(({ text }) => text) },
      weight: {},
    },
  ];
}

type Stretch = Pick<Process['reads'][number], 'signal' | 'low' | 'width'>;

function isMissing(netlist: Netlist, process: Process, read: Stretch): boolean {
  if (process.assignments.some(({ signal }) => signal === read.signal)) return false;
  const { node } = netlist.signals[read.signal];
  const bits = Array.from({ length: read.width }, (_, index) => ({ node, bit: read.low + index }));
  const listed = listedNets(netlist, process);
  return [...namedBits(netlist, bits).values()].some((bit) => !listed.has(bitKey(bit)) && !isFixed(netlist, bit));
}

/** An expression in the list counts as all that it is made of: what its changes hide is not looked at. */
function listedNets(netlist: Netlist, { sensitivity }: Process): ReadonlyMap<number, Bit> {
  const { width } = netlist.nodes;
  return namedBits(
    netlist,
    sensitivity.flatMap(({ node }) => Array.from({ length: width[node] }, (_, bit) => ({ node, bit }))),
  );
}

/** The bits with a name of their own that these are made of, by key. */
function namedBits({ nodes }: Netlist, from: readonly Bit[]): ReadonlyMap<number, Bit> {
  const found = new Map<number, Bit>();
  const seen = new Set(from.map(bitKey));
  const waiting = [...from];
  for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
    const op = nodes.op[bit.node];
    if (op === Op.net || isSource(op)) {
      found.set(bitKey(bit), bit);
      continue;
    }
    visitOperandsOfBit(nodes, bit, (node, index) => {
      const next = { node, bit: index };
      if (seen.has(bitKey(next))) return;
      seen.add(bitKey(next));
      waiting.push(next);
    });
  }
  return found;
}

/** What a constant drives never changes. */
function isFixed({ nodes }: Netlist, bit: Bit): boolean {
  return nodes.op[sourceBit(nodes, bit).node] === Op.constant;
}

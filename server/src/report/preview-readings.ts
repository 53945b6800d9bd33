// The readings of a preview: the number that a group of bits holds at each settled instant. From the earliest to the
// latest change that a root edge can cause, whatever the delays are, the bits are moving and there is no reading: a gap.

import { passesWords, sequenceWords } from '../explain/sequence';
import { digitOf } from '../explain/words';
import { signalBitName } from '../netlist/bit-names';
import type { Bit } from '../netlist/netlist';
import { namesOfReading } from '../netlist/value-names';
import type { Count } from '../predict/prediction';
import type { Waves } from '../predict/waves';
import type { Windows } from '../predict/windows';
import type { DesignFacts } from './design-facts';
import { bandsByEdge } from './preview-bands';
import type { PreviewBand, PreviewReading, PreviewTrace } from './preview-data';
import { originsOf } from '../predict/wave-query';
import { type Movement, movementsOf } from './preview-movements';
import type { PreviewRun } from './study-design';

export function readReadings(
  facts: DesignFacts,
  { waves, windows }: PreviewRun,
  traces: readonly PreviewTrace[],
): readonly PreviewReading[] {
  const roots = originsOf(waves);
  return facts.prediction.counts.flatMap((count, index) => {
    const bits = bitsOf(facts, count);
    const names = namesOfReading(facts.netlist, count.registers);
    const after = lastTraceOf(
      traces,
      bits.map(({ name }) => name),
    );
    if (after < 0) return [];
    const own = bits.map(({ bit }) => bit);
    const stretches = stretchesOf(waves, windows, { roots, bits: own });
    return [
      {
        name: nameOf(facts, count),
        bits: bits.map(({ name }) => name),
        after,
        group: traces[after].group,
        stretches,
        ...(names === null ? {} : { names }),
        caption: isKnown(stretches) ? captionOf(count, stretches) : '',
        count: index,
      },
    ];
  });
}

function bitsOf(
  { netlist }: DesignFacts,
  { registers }: Count,
): readonly { readonly name: string; readonly bit: Bit }[] {
  return registers.flatMap((id) => {
    const { low, node, signal, width } = netlist.registers[id];
    return Array.from({ length: width }, (_, index) => {
      const bit = width - 1 - index;
      return { name: signalBitName(netlist.signals[signal], low + bit), bit: { node, bit } };
    });
  });
}

/** The signal's name where all bits are of one, else their names. */
function nameOf({ netlist }: DesignFacts, { registers }: Count): string {
  const signals = registers.map((id) => netlist.signals[netlist.registers[id].signal].name);
  return [...new Set(signals)].join(' ');
}

function lastTraceOf(traces: readonly PreviewTrace[], names: readonly string[]): number {
  const wanted = new Set(names);
  return traces.reduce((last, { name }, index) => (wanted.has(name) ? index : last), -1);
}

type Stretch = PreviewReading['stretches'][number];

interface Read {
  /** For every change the change of the drive behind it. */
  readonly roots: Int32Array;
  readonly bits: readonly Bit[];
}

function stretchesOf(waves: Waves, windows: Windows, read: Read): readonly Stretch[] {
  const gaps = gapsOf(waves, windows, read);
  const first = read.bits.map((bit) => digitOf(waves.startOf(bit))).join('');
  const stretches: Stretch[] = [];
  let settled = { from: 0, value: gaps[0]?.before ?? first };
  for (const { after, from, to } of gaps) {
    if (from > settled.from) stretches.push({ from: settled.from, to: from, value: settled.value });
    if (to > from) stretches.push({ from, to, value: null });
    settled = { from: to, value: after };
  }
  return waves.end > settled.from ? [...stretches, { ...settled, to: waves.end }] : stretches;
}

interface Gap {
  readonly from: number;
  readonly to: number;
  readonly before: string;
  readonly after: string;
}

/**
 * Where a root edge moves the bits before those that an earlier one moves are sure to stand, no instant in between is
 * settled, and both are one gap (definition 32).
 */
function gapsOf(waves: Waves, windows: Windows, { bits, roots }: Read): readonly Gap[] {
  const bounds = boundsByEdge(windows, bits);
  const gaps: Gap[] = [];
  for (const movement of movementsOf(waves, roots, bits)) {
    const { from, to } = widened(waves, movement, bounds);
    const rootEdge = Math.min(...[...movement.roots].map((root) => waves.changes.time[root]));
    const last = gaps[gaps.length - 1];
    const end = Math.min(to, waves.end);
    if (last !== undefined && (rootEdge <= last.to || from <= last.to))
      gaps[gaps.length - 1] = { ...last, to: Math.max(last.to, end), after: movement.after };
    else gaps.push({ from, to: end, before: movement.before, after: movement.after });
  }
  return gaps;
}

/** By root edge, ps: from the earliest possible change of the bits to the latest. */
function boundsByEdge(windows: Windows, bits: readonly Bit[]): ReadonlyMap<number, PreviewBand> {
  return new Map(bandsByEdge(windows, bits).map((band) => [band.rootEdge, band]));
}

function widened(
  { changes }: Waves,
  { from, roots, to }: Movement,
  bounds: ReadonlyMap<number, PreviewBand>,
): Pick<PreviewBand, 'from' | 'to'> {
  const own = [...roots].flatMap((root) => bounds.get(changes.time[root]) ?? []);
  return {
    from: Math.min(from, ...own.map((band) => band.from)),
    to: Math.max(to, ...own.map((band) => band.to)),
  };
}

/** A sequence is of settled cycles; it is said only where the waves hold it too, not beside a race that leaves x. */
function isKnown(stretches: readonly Stretch[]): boolean {
  const values = stretches.flatMap(({ value }) => (value === null ? [] : [value]));
  return !/[xz]/.test(values[values.length - 1] ?? '');
}

/** The count begins when the inputs rest: what moved before then has been drawn, and leads in to it. */
function captionOf(count: Count, stretches: readonly Stretch[]): string {
  const readings = new Set(stretches.flatMap(({ value }) => value ?? []));
  const leadIn = count.leadIn.length > 0 || readings.size === 1 ? count.leadIn : [...readings];
  return [sequenceWords({ ...count, leadIn }), passesWords(count)].filter((words) => words !== '').join('; ');
}

// The readings of a preview: the number that a group of bits holds at each settled instant. From the earliest to the
// latest change that a root edge can cause, whatever the delays are, the bits are moving and there is no reading: a gap.

import { passesWords, sequenceWords } from '../explain/sequence';
import { digitOf } from '../explain/words';
import { signalBitName } from '../netlist/bit-names';
import type { Bit } from '../netlist/netlist';
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

function stretchesOf(waves: Waves, windows: Windows, { bits, roots }: Read): readonly Stretch[] {
  const movements = movementsOf(waves, roots, bits);
  const bounds = boundsByEdge(windows, bits);
  const stretches: Stretch[] = [];
  let settledFrom = 0;
  for (const movement of movements) {
    const { from, to } = widened(waves, movement, bounds);
    if (from > settledFrom) stretches.push({ from: settledFrom, to: from, value: movement.before });
    const start = Math.max(from, settledFrom);
    const last = stretches[stretches.length - 1];
    const end = Math.min(to, waves.end);
    // What two root edges leave moving is one gap.
    if (last !== undefined && last.value === null && last.to === start)
      stretches[stretches.length - 1] = { ...last, to: Math.max(last.to, end) };
    else if (end > start) stretches.push({ from: start, to: end, value: null });
    settledFrom = Math.max(settledFrom, end);
  }
  const value = movements[movements.length - 1]?.after ?? bits.map((bit) => digitOf(waves.startOf(bit))).join('');
  return waves.end > settledFrom ? [...stretches, { from: settledFrom, to: waves.end, value }] : stretches;
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

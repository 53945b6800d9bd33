// The readings of a preview: the number that a group of bits holds at each settled instant. From the first change after
// a root edge to the last one that the same edge causes, the bits are moving and there is no reading: a gap.

import { passesWords, sequenceWords } from '../explain/sequence';
import { digitOf } from '../explain/words';
import { signalBitName } from '../netlist/bit-names';
import type { Bit } from '../netlist/netlist';
import type { Count } from '../predict/prediction';
import type { Waves } from '../predict/waves';
import type { DesignFacts } from './design-facts';
import type { PreviewReading, PreviewTrace } from './preview-data';
import { movementsOf, rootChanges } from './preview-movements';

export function readReadings(
  facts: DesignFacts,
  waves: Waves,
  traces: readonly PreviewTrace[],
): readonly PreviewReading[] {
  const roots = rootChanges(waves);
  return facts.prediction.counts.flatMap((count, index) => {
    const bits = bitsOf(facts, count);
    const after = lastTraceOf(
      traces,
      bits.map(({ name }) => name),
    );
    if (after < 0) return [];
    const stretches = stretchesOf(
      waves,
      roots,
      bits.map(({ bit }) => bit),
    );
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

function stretchesOf(waves: Waves, roots: Int32Array, bits: readonly Bit[]): readonly Stretch[] {
  const movements = movementsOf(waves, roots, bits);
  const stretches: Stretch[] = [];
  let settledFrom = 0;
  for (const { before, from, to } of movements) {
    if (from > settledFrom) stretches.push({ from: settledFrom, to: from, value: before });
    if (to > from) stretches.push({ from, to, value: null });
    settledFrom = to;
  }
  const value = movements[movements.length - 1]?.after ?? bits.map((bit) => digitOf(waves.startOf(bit))).join('');
  return waves.end > settledFrom ? [...stretches, { from: settledFrom, to: waves.end, value }] : stretches;
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

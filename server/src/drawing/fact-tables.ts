// What the picture shows, as tables of text: for a screen reader, for copying, and for a page without a script. Only what
// happens within a window of time; where a list is cut the last entry says so.

import type { PreviewData, PreviewReading, PreviewTrace } from '../report/preview-data';
import { timeWords } from '../text/time-words';
import { lastWhere } from './columns';
import { valueText } from './digits';
import type { Radix } from './view';

export interface FactTable {
  readonly caption: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export interface TableOptions {
  readonly radix: Radix;
  /** ps, both ends belong to it. */
  readonly from: number;
  readonly to: number;
  /** Entries of one list at most. */
  readonly most: number;
}

/** Tables without rows are left out. */
export function factTables(data: PreviewData, options: TableOptions): readonly FactTable[] {
  const tables = [
    traceTable(data, options),
    eventTable(data, options),
    readingTable(data, options),
    settlingTable(data, options),
    pulseTable(data, options),
    keptTable(data, options),
    doubtTable(data, options),
  ];
  return tables.filter(({ rows }) => rows.length > 0);
}

function traceTable({ traces, whatIf }: PreviewData, options: TableOptions): FactTable {
  const otherwise = new Map(whatIf?.traces.map((other) => [other.trace, other]));
  return {
    caption: 'Traces',
    heads: ['trace', 'what it is', 'at first', 'changes'],
    rows: traces.flatMap((trace, index) => {
      const other = otherwise.get(index);
      const now = [trace.name, traceWords(trace), valueAtFirst(trace, options), changes(trace, options)];
      if (other === undefined) return [now];
      return [
        now,
        [`${trace.name}, what if`, 'how it would run', valueAtFirst(other, options), changes(other, options)],
      ];
    }),
  };
}

/** `register, clocked by clk rising, stage 1, +1 ns` */
export function traceWords({ clock, kind, note }: PreviewTrace): string {
  const clocked = clock === null ? '' : `clocked by ${clock.signal} ${clock.edge}`;
  return [kind, clocked, note].filter((word) => word !== '').join(', ');
}

type Course = Pick<PreviewTrace, 'names' | 'start'> & {
  readonly changes: Pick<PreviewTrace['changes'], 'at' | 'value'>;
};

/** At the begin of the window. */
function valueAtFirst({ changes: { at, value }, names, start }: Course, { from, radix }: TableOptions): string {
  const before = lastWhere(at.length, (index) => at[index] < from);
  return valueText(before < 0 ? start : value[before], radix, names);
}

function changes({ changes: { at, value }, names }: Course, options: TableOptions): string {
  const seen = indicesWithin(at.length, (index) => at[index], options);
  const written = seen.shown.map(
    (index) => `${valueText(value[index], options.radix, names)} at ${timeWords(at[index])}`,
  );
  return [...written, ...moreWords(seen)].join(', ') || 'none';
}

/** Every change with its cause, in the order in which they happen. */
function eventTable({ links }: PreviewData, options: TableOptions): FactTable {
  const seen = indicesWithin(links.length, (index) => links[index].at, options);
  const rows = seen.shown.map((index) => [timeWords(links[index].at), links[index].words]);
  return {
    caption: 'What happens, in order',
    heads: ['at', 'what and because of what'],
    rows: [...rows, ...moreWords(seen).map((words) => ['', words])],
  };
}

function readingTable({ readings }: PreviewData, options: TableOptions): FactTable {
  return {
    caption: 'Readings',
    heads: ['reading', 'bits, most significant first', 'sequence', 'values'],
    rows: readings.map((reading) => [
      reading.name,
      reading.bits.join(' '),
      reading.caption || 'none recognized',
      stretches(reading, options),
    ]),
  };
}

function stretches({ names, stretches: list }: PreviewReading, options: TableOptions): string {
  const within = list.filter(({ from, to }) => to > options.from && from <= options.to);
  const written = within
    .slice(0, options.most)
    .map(
      ({ from, value }) =>
        `${value === null ? 'moving' : valueText(value, options.radix, names)} from ${timeWords(from)}`,
    );
  return [...written, ...moreWords({ left: within.length - written.length })].join(', ') || 'none';
}

/** What is hatched in the picture. */
function settlingTable({ traces }: PreviewData, options: TableOptions): FactTable {
  const bands = traces.flatMap(({ name, settling }) => settling.map((band) => ({ name, band })));
  return listed(
    { caption: settlingCaption, heads: ['trace', 'from', 'to', 'after the edge at', 'how'] },
    bands.filter(({ band }) => band.to >= options.from && band.from <= options.to),
    ({ band, name }) => [
      name,
      timeWords(band.from),
      timeWords(band.to),
      timeWords(band.rootEdge),
      `${band.moves === 'once' ? 'changes once' : 'may come and go'}${band.exact ? '' : ', at the widest'}`,
    ],
    options,
  );
}

export const settlingCaption = 'Settling, hatched: from the earliest to the latest change that the delays allow';

function pulseTable({ glitches, traces }: PreviewData, options: TableOptions): FactTable {
  return listed(
    { caption: 'Pulses that should not be there', heads: ['trace', 'at', 'what it is', 'how sure'] },
    glitches.filter(({ at, until }) => until >= options.from && at <= options.to),
    ({ at, certainty, harmless, trace, words }) => [
      traces[trace].name,
      timeWords(at),
      words,
      harmless ? `${certainty}, harmless` : certainty,
    ],
    options,
  );
}

function keptTable({ traces }: PreviewData, options: TableOptions): FactTable {
  const held = traces.flatMap(({ held: list, name }) => list.map(({ at, words }) => ({ at, name, words })));
  return listed(
    { caption: 'Clock edges that changed nothing', heads: ['trace', 'at', 'why'] },
    held.filter(({ at }) => at >= options.from && at <= options.to),
    ({ at, name, words }) => [name, timeWords(at), words],
    options,
  );
}

function doubtTable({ traces }: PreviewData, options: TableOptions): FactTable {
  const doubts = traces.flatMap(({ doubts: list, name }) => list.map(({ at, words }) => ({ at, name, words })));
  return listed(
    { caption: 'Values in doubt', heads: ['trace', 'from', 'why'] },
    doubts.filter(({ at }) => at <= options.to),
    ({ at, name, words }) => [name, timeWords(at), words],
    options,
  );
}

function listed<T>(
  head: Pick<FactTable, 'caption' | 'heads'>,
  items: readonly T[],
  rowOf: (item: T) => readonly string[],
  { most }: TableOptions,
): FactTable {
  const rows = items.slice(0, most).map(rowOf);
  const more = moreWords({ left: items.length - rows.length });
  return { ...head, rows: [...rows, ...more.map((words) => [words, ...head.heads.slice(1).map(() => '')])] };
}

interface Seen {
  readonly shown: readonly number[];
  /** How many more there are in the window. */
  readonly left: number;
}

function indicesWithin(length: number, timeOf: (index: number) => number, { from, most, to }: TableOptions): Seen {
  const first = lastWhere(length, (index) => timeOf(index) < from) + 1;
  const after = lastWhere(length, (index) => timeOf(index) <= to) + 1;
  const count = Math.min(most, after - first);
  return { shown: Array.from({ length: count }, (_, index) => first + index), left: after - first - count };
}

function moreWords({ left }: { readonly left: number }): readonly string[] {
  return left > 0 ? [`and ${left} more`] : [];
}

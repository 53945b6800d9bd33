// The drive as fields: what each holds, whether that is assumed or chosen here, and what becomes of the choices when a
// person writes something else into it or goes back to what is stated. No element of a page is touched.

import type { ClockChoice, ResetChoice, StudyChoices } from '../../server/src/editor/panel-messages';
import type { PreviewData } from '../../server/src/report/preview-data';
import {
  parseActive,
  parseCount,
  parsePeriod,
  parseTime,
  writeConstant,
  writePeriod,
  type Written,
} from './drive-values';
import { parseInput, writeInput, writeLevels } from './input-words';
import { timeWords } from '../../server/src/text/time-words';

export interface DriveField {
  /** Stays the same over updates. */
  readonly key: string;
  /** The signal that it belongs to. */
  readonly signal: string;
  readonly label: string;
  readonly value: string;
  readonly origin: Origin;
  /** Why it is assumed, in words; empty where it is not. */
  readonly reason: string;
  /** The choices with what was written in place of what was chosen. */
  write(text: string, choices: StudyChoices): Written<StudyChoices>;
  /** The choices without this one. */
  withdraw(choices: StudyChoices): StudyChoices;
}

/** stated: in the text or in `foretick.json`. */
export type Origin = 'chosen' | 'stated' | 'assumed';

type Drive = PreviewData['drive'];

/** In the order of the drive: clocks, resets, held inputs. */
export function driveFields({ assumptions, drive }: PreviewData, choices: StudyChoices): readonly DriveField[] {
  const reasonOf = (signal: string) => assumptions.find(({ about }) => about === signal)?.reason ?? '';
  return [
    ...drive.clocks.flatMap((clock) => clockFields(clock, choices, reasonOf(clock.signal))),
    ...drive.resets.flatMap((reset) => resetFields(reset, choices, reasonOf(reset.signal))),
    ...drive.inputs.map((input) => inputField(input, choices, reasonOf(input.signal))),
  ];
}

/**
 * Why the start value is assumed; null where it is stated, or nothing hangs on it. Its entry is about `start` and comes
 * after those of the ports, one of which may have that name too.
 */
export function startReason({ assumptions, drive: { clocks, inputs, resets } }: PreviewData): string | null {
  const entries = assumptions.filter(({ about }) => about === 'start');
  const isPort = [...clocks, ...resets, ...inputs].some(
    ({ signal, source }) => signal === 'start' && !isStated(source),
  );
  return (isPort ? entries.slice(1) : entries).at(-1)?.reason ?? null;
}

function clockFields(clock: Drive['clocks'][number], choices: StudyChoices, reason: string): readonly DriveField[] {
  const { high, highSource, period, phase, phaseSource, signal, source } = clock;
  const chosen = entryOf(choices.clocks, signal);
  const common = { signal, reason };
  return [
    {
      ...common,
      key: `clock ${signal} period`,
      label: 'period',
      value: writePeriod(period),
      origin: originOf(source, chosen?.periodPs ?? null),
      write: (text, from) => mapped(parsePeriod(text), (periodPs) => withClock(from, signal, { periodPs })),
      withdraw: (from) => withClock(from, signal, { periodPs: null }),
    },
    {
      ...common,
      key: `clock ${signal} high`,
      label: 'high for',
      value: timeWords(high),
      origin: originOf(highSource, chosen?.highPs ?? null),
      write: (text, from) => mapped(parseTime(text), (highPs) => withClock(from, signal, { highPs })),
      withdraw: (from) => withClock(from, signal, { highPs: null }),
    },
    {
      ...common,
      key: `clock ${signal} phase`,
      label: 'first rise',
      value: timeWords(phase),
      origin: originOf(phaseSource, chosen?.phasePs ?? null),
      write: (text, from) => mapped(parseTime(text), (phasePs) => withClock(from, signal, { phasePs })),
      withdraw: (from) => withClock(from, signal, { phasePs: null }),
    },
  ];
}

function resetFields(
  { active, activeSource, periods, periodsSource, signal }: Drive['resets'][number],
  choices: StudyChoices,
  reason: string,
): readonly DriveField[] {
  const chosen = entryOf(choices.resets, signal);
  const common = { signal, reason };
  return [
    {
      ...common,
      key: `reset ${signal} active`,
      label: 'resets while',
      value: active,
      origin: originOf(activeSource, chosen?.active ?? null),
      write: (text, from) => mapped(parseActive(text), (level) => withReset(from, signal, { active: level })),
      withdraw: (from) => withReset(from, signal, { active: null }),
    },
    {
      ...common,
      key: `reset ${signal} periods`,
      label: 'from the start for',
      value: periods === 1 ? '1 period' : `${periods} periods`,
      origin: originOf(periodsSource, chosen?.periods ?? null),
      write: (text, from) => mapped(parseCount(text), (value) => withReset(from, signal, { periods: value })),
      withdraw: (from) => withReset(from, signal, { periods: null }),
    },
  ];
}

function inputField(
  { moves, signal, source, value }: Drive['inputs'][number],
  choices: StudyChoices,
  reason: string,
): DriveField {
  const chosen = entryOf(choices.inputs, signal);
  const movement = chosen !== null && typeof chosen === 'object' ? writeInput(chosen) : movementOf(value, moves);
  return {
    key: `input ${signal}`,
    signal,
    // What is written in place of a movement holds it still.
    label: moves === null ? 'held at' : movement === null ? 'moves, at first' : 'moves',
    value: (moves === null ? null : movement) ?? writeConstant(value),
    origin: originOf(source, chosen),
    reason,
    write: (text, from) =>
      mapped(parseInput(text, value.length), (input) => ({
        ...from,
        inputs: withEntry(from.inputs, signal, input),
      })),
    withdraw: (from) => ({ ...from, inputs: withEntry(from.inputs, signal, null) }),
  };
}

/** Longer ones are shown in the drawing and cannot be read in a field. */
const mostLevels = 8;

/** As levels over time; null where there are too many of them, or where what comes again overlaps. */
function movementOf(value: string, moves: Drive['inputs'][number]['moves']): string | null {
  if (moves === null || moves.changesTotal > mostLevels) return null;
  const { changes, everyPs } = moves;
  const inRound = changes.filter(({ at }) => everyPs === null || at < everyPs);
  const last = changes[changes.length - 1];
  if (everyPs !== null && (last.at > everyPs || last.value !== value)) return null;
  const levels = [{ at: 0, value }, ...inRound].map((level) => ({ atPs: level.at, value: writeConstant(level.value) }));
  return writeLevels(levels, everyPs);
}

function originOf(source: Drive['inputs'][number]['source'], chosen: unknown): Origin {
  if (chosen !== null && chosen !== undefined) return 'chosen';
  return isStated(source) ? 'stated' : 'assumed';
}

function isStated(source: Drive['inputs'][number]['source']): boolean {
  return source === 'given' || source === 'text';
}

function withClock(choices: StudyChoices, signal: string, change: Partial<ClockChoice>): StudyChoices {
  const entry = { periodPs: null, highPs: null, phasePs: null, ...entryOf(choices.clocks, signal), ...change };
  const isEmpty = Object.values(entry).every((value) => value === null);
  return { ...choices, clocks: withEntry(choices.clocks, signal, isEmpty ? null : entry) };
}

function withReset(choices: StudyChoices, signal: string, change: Partial<ResetChoice>): StudyChoices {
  const entry = { active: null, periods: null, ...entryOf(choices.resets, signal), ...change };
  const isEmpty = Object.values(entry).every((value) => value === null);
  return { ...choices, resets: withEntry(choices.resets, signal, isEmpty ? null : entry) };
}

function mapped<T, U>(written: Written<T>, change: (value: T) => U): Written<U> {
  return written.kind === 'refused' ? written : { kind: 'value', value: change(written.value) };
}

/** Names come from a design and may be called as what every object has. */
function entryOf<T>(record: Readonly<Record<string, T>>, name: string): T | null {
  return Object.hasOwn(record, name) ? record[name] : null;
}

function withEntry<T>(record: Readonly<Record<string, T>>, name: string, entry: T | null): Readonly<Record<string, T>> {
  const others = Object.entries(record).filter(([each]) => each !== name);
  return Object.fromEntries(entry === null ? others : [...others, [name, entry]]);
}

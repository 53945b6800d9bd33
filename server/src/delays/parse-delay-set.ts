// Reads a delay set handed in as data (from `foretick.json`): a set, or everything that is wrong with it. Times are whole
// ps from 0 on. A triple may be written as one number, as [min, typ, max] or as {min, typ, max}; a delay per direction
// as one triple for both or as {rise, fall}. What is absent or null is not stated. An unknown key is refused, since a
// misspelled one that is passed over would be believed.

import type { DelayTriple } from '../netlist/netlist';
import type { ReasonArguments } from '../text/complaint';
import type { DelaySet, DirectionalDelay, LogicClass } from './delay-set';
import type { StatedDelays } from './own-delays';
import { tripleOf, zeroDelay } from './triple';
import { logicClasses } from './delay-set';

export interface DelayComplaint {
  readonly reason:
    | 'delay-not-object'
    | 'delay-unknown-key'
    | 'delay-missing'
    | 'delay-not-time'
    | 'delay-not-ordered'
    | 'delay-not-text'
    | 'delay-not-count';
  /** `at`: the path of the entry, such as `clockToQ.first.rise`. */
  readonly args: ReasonArguments;
}

export type ParsedDelaySet =
  | { readonly kind: 'set'; readonly set: DelaySet }
  | { readonly kind: 'refused'; readonly complaints: readonly DelayComplaint[] };

export type ParsedDelays =
  | { readonly kind: 'delays'; readonly delays: StatedDelays }
  | { readonly kind: 'refused'; readonly complaints: readonly DelayComplaint[] };

export function parseDelaySet(name: string, written: unknown): ParsedDelaySet {
  const complaints: DelayComplaint[] = [];
  const entries = readEntries(written, complaints);
  const { clockToQ } = entries;
  if (clockToQ === null) complaints.push({ reason: 'delay-missing', args: { at: 'clockToQ' } });
  if (clockToQ === null || complaints.length > 0) return { kind: 'refused', complaints };
  return { kind: 'set', set: { ...entries, name, clockToQ } };
}

/** As a set, but with every entry open: what is stated for a single thing. */
export function parseDelays(written: unknown): ParsedDelays {
  const complaints: DelayComplaint[] = [];
  const delays = readEntries(written, complaints);
  return complaints.length === 0 ? { kind: 'delays', delays } : { kind: 'refused', complaints };
}

type Fields = Readonly<{ [key: string]: unknown }>;

const tripleKeys = ['setup', 'hold', 'recovery', 'removal', 'width', 'period', 'tau', 'window'] as const;
const setKeys = ['sheet', 'conditions', 'clockToQ', 'stagesPerPart', 'logic', 'latch', 'clear', ...tripleKeys];

function readEntries(written: unknown, complaints: DelayComplaint[]): StatedDelays {
  const fields = readObject(written, '', setKeys, complaints);
  const triple = (key: (typeof tripleKeys)[number]) =>
    stated(fields[key]) ? readTriple(fields[key], key, complaints) : null;
  return {
    sheet: readText(fields.sheet, 'sheet', complaints),
    conditions: readText(fields.conditions, 'conditions', complaints),
    clockToQ: readClockToQ(fields.clockToQ, complaints),
    stagesPerPart: readCount(fields.stagesPerPart, 'stagesPerPart', complaints),
    logic: readLogic(fields.logic, complaints),
    latch: readOptionalDelay(fields.latch, 'latch', complaints),
    clear: readOptionalDelay(fields.clear, 'clear', complaints),
    setup: triple('setup'),
    hold: triple('hold'),
    recovery: triple('recovery'),
    removal: triple('removal'),
    width: triple('width'),
    period: triple('period'),
    tau: triple('tau'),
    window: triple('window'),
  };
}

function readClockToQ(written: unknown, complaints: DelayComplaint[]): StatedDelays['clockToQ'] {
  if (!stated(written)) return null;
  const fields = readObject(written, 'clockToQ', ['first', 'next'], complaints);
  if (!stated(fields.first)) complaints.push({ reason: 'delay-missing', args: { at: 'clockToQ.first' } });
  return {
    first: readOptionalDelay(fields.first, 'clockToQ.first', complaints) ?? zeroDelay,
    next: readOptionalDelay(fields.next, 'clockToQ.next', complaints),
  };
}

function readLogic(written: unknown, complaints: DelayComplaint[]): DelaySet['logic'] {
  if (!stated(written)) return null;
  const fields = readObject(written, 'logic', logicClasses, complaints);
  const logic: { [Class in LogicClass]?: DirectionalDelay } = {};
  for (const name of logicClasses) {
    const delay = readOptionalDelay(fields[name], `logic.${name}`, complaints);
    if (delay !== null) logic[name] = delay;
  }
  return logic;
}

function readOptionalDelay(written: unknown, at: string, complaints: DelayComplaint[]): DirectionalDelay | null {
  if (!stated(written)) return null;
  if (!isObject(written) || 'min' in written || 'typ' in written || 'max' in written) {
    const triple = readTriple(written, at, complaints);
    return { rise: triple, fall: triple };
  }
  const fields = readObject(written, at, ['rise', 'fall'], complaints);
  return { rise: readDirection(fields, 'rise', at, complaints), fall: readDirection(fields, 'fall', at, complaints) };
}

function readDirection(fields: Fields, key: string, at: string, complaints: DelayComplaint[]): DelayTriple {
  if (stated(fields[key])) return readTriple(fields[key], `${at}.${key}`, complaints);
  complaints.push({ reason: 'delay-missing', args: { at: `${at}.${key}` } });
  return tripleOf(0);
}

function readTriple(written: unknown, at: string, complaints: DelayComplaint[]): DelayTriple {
  const [min, typ, max] = cornersOf(written, at, complaints);
  if (![min, typ, max].every(at === 'period' ? isDuration : isTime)) {
    complaints.push({ reason: 'delay-not-time', args: { at } });
    return tripleOf(0);
  }
  const triple = { min: min as number, typ: typ as number, max: max as number };
  if (triple.min > triple.typ || triple.typ > triple.max)
    complaints.push({ reason: 'delay-not-ordered', args: { at } });
  return triple;
}

function cornersOf(written: unknown, at: string, complaints: DelayComplaint[]): readonly unknown[] {
  if (Array.isArray(written)) return written.length === 3 ? written : [];
  if (!isObject(written)) return [written, written, written];
  const { min, typ, max } = readObject(written, at, ['min', 'typ', 'max'], complaints);
  return [min, typ, max];
}

function readText(written: unknown, at: string, complaints: DelayComplaint[]): string | null {
  if (!stated(written)) return null;
  if (typeof written === 'string') return written;
  complaints.push({ reason: 'delay-not-text', args: { at } });
  return null;
}

function readCount(written: unknown, at: string, complaints: DelayComplaint[]): number | null {
  if (!stated(written)) return null;
  if (typeof written === 'number' && Number.isSafeInteger(written) && written > 0) return written;
  complaints.push({ reason: 'delay-not-count', args: { at } });
  return null;
}

/** The object, with a complaint for every key that it should not have; empty where it is none. */
function readObject(written: unknown, at: string, keys: readonly string[], complaints: DelayComplaint[]): Fields {
  if (!isObject(written)) {
    complaints.push({ reason: 'delay-not-object', args: { at } });
    return {};
  }
  for (const key of Object.keys(written)) {
    if (keys.includes(key)) continue;
    complaints.push({ reason: 'delay-unknown-key', args: { at: at === '' ? key : `${at}.${key}` } });
  }
  return written;
}

function isObject(written: unknown): written is Fields {
  return typeof written === 'object' && written !== null && !Array.isArray(written);
}

function isTime(value: unknown): boolean {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;
}

/** A period may fall between whole ps: it stands for a published rate. */
function isDuration(value: unknown): boolean {
  return typeof value === 'number' && Number.isFinite(value) && value >= 0;
}

function stated(written: unknown): boolean {
  return written !== undefined && written !== null;
}

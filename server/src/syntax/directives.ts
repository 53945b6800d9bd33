// The directives that set what holds from here on: net type, time scale, cells, keywords. Their text is read
// here; what they set is carried from file to file (IEEE 1364-2005 clause 19: to the end of all files).

import { type KeywordSet, keywordSetNamed } from './keywords';
import type { InForce } from './module';
import type { NetType } from './tables';

/** What directives have set so far. */
export interface Settings extends InForce {
  /** What open `begin_keywords name, the one that holds last (IEEE 1364-2005 19.11, IEEE 1800-2017 22.14). */
  readonly keywordSets: readonly KeywordSet[];
}

/** The words that are reserved; null outside every `begin_keywords: whatever the grammar reserves. */
export function keywordSetOf({ keywordSets }: Settings): KeywordSet | null {
  return keywordSets[keywordSets.length - 1] ?? null;
}

export const initialSettings: Settings = {
  celldefine: false,
  timeUnit: null,
  timePrecision: null,
  defaultNet: 'wire',
  keywordSets: [],
};

/** What one directive does; `rest` is its line behind the directive's word. */
export interface DirectiveEffect {
  readonly settings: Settings;
  /** How much of `rest` belongs to the directive. */
  readonly length: number;
  readonly flaw: 'bad-directive' | 'directive' | null;
}

/** Whether the word is one of these directives. */
export function isSettingWord(word: string): boolean {
  return effects.has(word);
}

export function obeyDirective(word: string, rest: string, settings: Settings): DirectiveEffect {
  const obey = effects.get(word) ?? readOver;
  return obey(rest, settings);
}

type Effect = (rest: string, settings: Settings) => DirectiveEffect;

function settingTo(change: Partial<Settings>): Effect {
  return (_rest, settings) => ({ settings: { ...settings, ...change }, length: 0, flaw: null });
}

const readOver: Effect = (rest, settings) => ({ settings, length: rest.length, flaw: null });

/** unit / precision, each 1, 10 or 100 of s … fs, the precision no coarser (IEEE 1364-2005 19.8). */
const setTimeScale: Effect = (rest, settings) => {
  const written = /^\s*(\d+)\s*([munpf]?s)\s*\/\s*(\d+)\s*([munpf]?s)\b/.exec(rest);
  const bad: DirectiveEffect = { settings, length: rest.length, flaw: 'bad-directive' };
  if (written === null || !magnitudes.has(written[1]) || !magnitudes.has(written[3])) return bad;
  const timeUnit = picoseconds(written[1], written[2]);
  const timePrecision = picoseconds(written[3], written[4]);
  if (timePrecision > timeUnit) return bad;
  return { settings: { ...settings, timeUnit, timePrecision }, length: written[0].length, flaw: null };
};

const setDefaultNet: Effect = (rest, settings) => {
  const written = /^\s*([a-z0-9]+)\b/.exec(rest);
  if (written === null || !defaultNets.has(written[1])) return { settings, length: rest.length, flaw: 'bad-directive' };
  const defaultNet = written[1] as NetType | 'none';
  return { settings: { ...settings, defaultNet }, length: written[0].length, flaw: null };
};

/** The defaults again; keywords are not among them (IEEE 1364-2005 19.6, 19.11). */
const resetAll: Effect = (_rest, settings) => {
  const { keywordSets } = settings;
  return { settings: { ...initialSettings, keywordSets }, length: 0, flaw: null };
};

const beginKeywords: Effect = (rest, settings) => {
  const written = /^\s*"([^"]*)"/.exec(rest);
  const set = written === null ? null : keywordSetNamed(written[1]);
  if (written === null || set === null) return { settings, length: rest.length, flaw: 'bad-directive' };
  const keywordSets = [...settings.keywordSets, set].slice(-deepestKeywords);
  return { settings: { ...settings, keywordSets }, length: written[0].length, flaw: null };
};

/** Nobody nests them deeper, and each setting keeps its own list. */
const deepestKeywords = 64;

const endKeywords: Effect = (_rest, settings) => {
  if (settings.keywordSets.length === 0) return { settings, length: 0, flaw: 'bad-directive' };
  return { settings: { ...settings, keywordSets: settings.keywordSets.slice(0, -1) }, length: 0, flaw: null };
};

/** Ports that nothing is connected to stay open all the same, which is said (IEEE 1364-2005 19.9). */
const unconnectedDrive: Effect = (rest, settings) => {
  const written = /^\s*pull[01]\b/.exec(rest);
  return { settings, length: (written ?? [rest])[0].length, flaw: written === null ? 'bad-directive' : 'directive' };
};

/** Changes what the text means in a way that is not modelled. */
const notObeyed: Effect = (rest, settings) => ({ settings, length: rest.length, flaw: 'directive' });

function picoseconds(magnitude: string, unit: string): number {
  return Number(magnitude) * (unitsInPicoseconds.get(unit) ?? 1);
}

const magnitudes: ReadonlySet<string> = new Set(['1', '10', '100']);
const unitsInPicoseconds: ReadonlyMap<string, number> = new Map([
  ['s', 1e12],
  ['ms', 1e9],
  ['us', 1e6],
  ['ns', 1e3],
  ['ps', 1],
  ['fs', 1e-3],
]);
/** IEEE 1364-2005 19.2. */
const defaultNets: ReadonlySet<string> = new Set([
  'wire',
  'tri',
  'tri0',
  'tri1',
  'wand',
  'triand',
  'wor',
  'trior',
  'trireg',
  'uwire',
  'none',
]);

const effects: ReadonlyMap<string, Effect> = new Map<string, Effect>([
  ['timescale', setTimeScale],
  ['default_nettype', setDefaultNet],
  ['celldefine', settingTo({ celldefine: true })],
  ['endcelldefine', settingTo({ celldefine: false })],
  ['resetall', resetAll],
  ['begin_keywords', beginKeywords],
  ['end_keywords', endKeywords],
  ['unconnected_drive', unconnectedDrive],
  ['nounconnected_drive', settingTo({})],
  ['pragma', readOver],
  ['default_decay_time', notObeyed],
  ['default_trireg_strength', notObeyed],
  ['delay_mode_distributed', notObeyed],
  ['delay_mode_path', notObeyed],
  ['delay_mode_unit', notObeyed],
  ['delay_mode_zero', notObeyed],
]);

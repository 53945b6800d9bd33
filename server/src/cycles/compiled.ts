// A period of a circuit as compiled code with its memory: state goes in and comes out as planes of 32-bit limbs, by the
// offsets of the plan. Whoever may compile hands the compiler in; nothing here knows where code runs.

import type { CompiledModule, ModuleCompiler } from './compiled-module';
import { type Emitted, emitPeriod } from './emit';
import { tapeOf } from './tape';
import { entryBytes, header } from './layout';
import { type Period, periodOf } from './period';
import type { CycleQuestion, CycleRefusal, Watched } from './plan';
import { limbsOf } from './words';
import type { StatePart } from './world';

export interface Planes {
  readonly a: Uint32Array;
  readonly b: Uint32Array;
}

/** What a call has logged: valid until the next one. */
export interface CycleLog {
  readonly count: number;
  /** Whole periods before it, counted within the call. */
  periodAt(entry: number): number;
  instantAt(entry: number): number;
  watchedAt(entry: number): number;
  /** A limb of 32 bits, 0 or 1, of one of the planes. */
  limbAt(entry: number, plane: 'a' | 'b', limb: number): number;
}

export interface CompiledPeriod {
  /** Positions of state that may be unknown. */
  readonly isOpen: ReadonlySet<number>;
  /** How many terms one period works out: what a limit on work counts. */
  readonly work: number;
  /** Takes state and what is watched over from the planes of all positions, at rest. */
  load(values: Planes): void;
  /** Gives the state back: of registers and latches alone. */
  store(values: Planes): void;
  /** The state of these planes becomes home. */
  setHome(values: Planes): void;
  /** At most so many periods; returns how many, and why no more. */
  run(periods: number): { readonly taken: number; readonly stop: number };
  readonly log: CycleLog;
}

/** How many terms of code a term of a tape takes as long as. */
const tapeCost = 8;

/** `isOpen`: positions of state that are unknown to begin with. Without a compiler a tape, where 32 bits do. */
export function compilePeriod(
  question: CycleQuestion,
  isOpen: ReadonlySet<number>,
  compile: ModuleCompiler | null,
): CompiledPeriod | CycleRefusal {
  const period = periodOf(question, isOpen);
  if (typeof period === 'string') return period;
  const emitted = emitPeriod(period, question);
  if (compile !== null) return periodAround(question, period, emitted, compile(emitted.bytes));
  const tape = tapeOf(period, emitted.layout, emitted.homes);
  return tape === null
    ? 'no-compiler'
    : periodAround(question, period, { ...emitted, work: tapeCost * tape.work }, tape);
}

function periodAround(
  question: CycleQuestion,
  period: Period,
  { homes, layout, work }: Emitted,
  { memory, run }: CompiledModule,
): CompiledPeriod {
  const words = new Uint32Array(memory.buffer);
  const { state, terms } = period;
  const { plan, watched } = question;
  for (const [table, entries] of terms.tables.entries()) {
    for (const [index, entry] of entries.entries()) {
      words[layout.tables[table] / 4 + 2 * index] = Number(entry & 0xffffffffn);
      words[layout.tables[table] / 4 + 2 * index + 1] = Number(entry >> 32n);
    }
  }
  const transfers = state.map((part) => ({
    part,
    from: plan.offset[part.position],
    at: layout.state / 4 + 2 * part.input,
  }));
  return {
    isOpen: new Set(state.filter((part) => part.isOpen).map(({ position }) => position)),
    work,
    load(values) {
      for (const { at, from, part } of transfers) copyState(part, values, from, words, at, 'in');
      for (const [index, one] of watched.entries()) {
        const at = layout.watched / 4 + 4 * index;
        for (const [plane, limbs] of [values.a, values.b].entries()) {
          for (const limb of [0, 1])
            words[at + 2 * plane + limb] = watchedLimb(plan.offset, plan.width, limbs, one, limb);
        }
      }
    },
    store(values) {
      for (const { at, from, part } of transfers) copyState(part, values, from, words, at, 'out');
    },
    setHome(values) {
      for (const [index, { from, isLong, plane }] of homes.entries()) {
        words[layout.home / 4 + 2 * index] = values[plane][from];
        words[layout.home / 4 + 2 * index + 1] = isLong ? values[plane][from + 1] : 0;
      }
    },
    run(periods) {
      run(periods);
      return { taken: words[header.taken / 4], stop: words[header.stop / 4] };
    },
    log: logIn(words, layout.log),
  };
}

function copyState(
  { isOpen, width }: StatePart,
  values: Planes,
  from: number,
  words: Uint32Array,
  at: number,
  way: 'in' | 'out',
): void {
  const limbs = (width + 31) >>> 5;
  const planes = [values.a, values.b];
  for (const [plane, limb] of planes.entries()) {
    const start = at + plane * 2 * limbsOf(width);
    for (let index = 0; index < limbs; index++) {
      if (way === 'out') limb[from + index] = plane === 1 && !isOpen ? 0 : words[start + index];
      else if (plane === 0 || isOpen) words[start + index] = limb[from + index];
    }
  }
}

/** Half 0 or 1 of a watched word. */
function watchedLimb(
  offset: Uint32Array,
  widths: Uint32Array,
  plane: Uint32Array,
  { low, position, width }: Watched,
  half: number,
): number {
  const from = low + 32 * half;
  const needed = Math.min(32, width - 32 * half);
  if (needed <= 0) return 0;
  const last = ((widths[position] + 31) >>> 5) - 1;
  const limb = from >>> 5;
  const high = limb < last ? plane[offset[position] + limb + 1] : 0;
  const shift = from & 31;
  const bits = (plane[offset[position] + limb] >>> shift) | (shift === 0 ? 0 : high << (32 - shift));
  return (needed === 32 ? bits : bits & ((1 << needed) - 1)) >>> 0;
}

function logIn(words: Uint32Array, start: number): CycleLog {
  const at = (entry: number) => (start + entry * entryBytes) / 4;
  return {
    get count() {
      return (words[header.logEnd / 4] - start) / entryBytes;
    },
    periodAt: (entry) => words[at(entry)],
    instantAt: (entry) => words[at(entry) + 1] >>> 16,
    watchedAt: (entry) => words[at(entry) + 1] & 0xffff,
    limbAt: (entry, plane, limb) => words[at(entry) + (plane === 'a' ? 2 : 4) + limb],
  };
}

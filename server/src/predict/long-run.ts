// A settled machine taken through the same instants period after period, as far as anybody asks: compiled where a
// compiler is handed in and the circuit allows it, else interpreted, with the same result bit for bit. Work is done in
// slices that end after a fixed count of it; states kept on the way let any window of a long run be shown again without
// running up to it.

import { type CompiledPeriod, compilePeriod, type Planes } from '../cycles/compiled';
import type { ModuleCompiler } from '../cycles/compiled-module';
import { Stop } from '../cycles/layout';
import type { CycleQuestion, CycleRefusal, SourceChange, Watched } from '../cycles/plan';
import { type ChangeListener, interpretPeriod } from './long-run-interpreted';
import { createKeptStates, putState, stateOf } from './long-run-states';
import type { SettledMachine } from './settled-machine';

export interface LongRunQuestion {
  /** At rest, before the first instant of a period. The run moves it. */
  readonly machine: SettledMachine;
  readonly instants: readonly (readonly SourceChange[])[];
  readonly watched: readonly Watched[];
  /** The limbs, with their bits, that make a state return. */
  readonly home: readonly { readonly limb: number; readonly mask: number }[];
  /** Null: terms are worked out without code. `step`: the machine itself is stepped, which is what the others stand for. */
  readonly compile: ModuleCompiler | null | 'step';
}

export interface LongRun {
  /** Whole periods since the beginning. */
  readonly periods: number;
  /** Why it is interpreted; null where it is compiled. */
  readonly refusal: CycleRefusal | 'asked-for' | null;
  /** How many periods were interpreted. */
  readonly interpreted: number;
  /** Nodes and terms worked out so far: what a limit on work counts. */
  readonly work: number;
  advance(periods: number, listener: ChangeListener | null): Generator<void, void>;
  /** At most so many periods, until the state is home; whether it is. */
  advanceHome(periods: number): Generator<void, boolean>;
  /** The state as it is now becomes home. */
  settleHome(): void;
  /** To any period, from the nearest state kept. */
  goTo(period: number): Generator<void, void>;
  /** The machine, brought to where the run is. */
  machine(): SettledMachine;
}

/** Terms worked out between two pauses: some milliseconds. */
const sliceWork = 1 << 21;
/** Nodes evaluated between two pauses. */
const interpretedWork = 1 << 14;

/** Periods with unknown state after which it is looked at whether any is left; then twice as many, and so on. */
const firstOpenPeriods = 16;

/** After more doubtful periods than this, and in more than half of all, code saves nothing. */
const fewDoubts = 256;

export function createLongRun(question: LongRunQuestion): LongRun {
  const { compile, home: homeLimbs, instants, machine, watched } = question;
  const kept = createKeptStates(stateOf(machine));
  const program = compile === 'step' ? null : createProgram(question, compile);
  let code = program?.first() ?? null;
  let isInCode = false;
  let home: Planes = stateOf(machine);
  const run = { periods: 0, interpreted: 0, work: 0 };
  let openPeriods = firstOpenPeriods;

  function* go(most: number, listener: ChangeListener | null, isHoming: boolean): Generator<void, boolean> {
    const until = run.periods + most;
    while (run.periods < until) {
      if (!isInCode && code !== null) code = program?.fitting(code) ?? null;
      const isHome = code === null ? interpret(until, listener, isHoming) : call(code, until, listener, isHoming);
      if (isHome) return true;
      if (run.periods < until) yield;
    }
    return false;
  }

  function call(now: CompiledPeriod, until: number, listener: ChangeListener | null, isHoming: boolean): boolean {
    if (!isInCode) {
      now.load(machine.values);
      now.setHome(home);
      isInCode = true;
    }
    const inSlice = Math.max(1, Math.floor(sliceWork / now.work));
    const most = Math.min(until - run.periods, inSlice, kept.spacing, now.isOpen.size > 0 ? openPeriods : inSlice);
    const { stop, taken } = now.run(most);
    if (listener !== null) tellLog(now, run.periods, listener);
    run.periods += taken;
    run.work += taken * now.work;
    if (stop === Stop.doubt) {
      const isHome = interpret(run.periods + 1, listener, isHoming);
      if (run.interpreted > fewDoubts && 2 * run.interpreted > run.periods) code = null;
      return isHome;
    }
    const isHome = stop === Stop.home && isHoming && isAtHome(leaveCode().values);
    if (kept.wants(run.periods)) kept.keep(run.periods, stateOf(leaveCode()));
    if (now.isOpen.size > 0) change(now);
    return isHome;
  }

  /** Once nothing is unknown any more that was at first, the code without it goes on. */
  function change(now: CompiledPeriod): void {
    leaveCode();
    openPeriods *= 2;
    const next = program?.closed(now) ?? null;
    if (next !== null) code = next;
  }

  function leaveCode(): SettledMachine {
    if (isInCode && code !== null) {
      const state = stateOf(machine);
      code.store(state);
      putState(machine, state);
      isInCode = false;
    }
    return machine;
  }

  function interpret(until: number, listener: ChangeListener | null, isHoming: boolean): boolean {
    leaveCode();
    const before = machine.work;
    let isHome = false;
    while (run.periods < until && machine.work - before < interpretedWork && !isHome) {
      interpretPeriod(machine, instants, watched, { period: run.periods, listener });
      run.periods += 1;
      run.interpreted += 1;
      if (kept.wants(run.periods)) kept.keep(run.periods, stateOf(machine));
      isHome = isHoming && isAtHome(machine.values);
    }
    run.work += machine.work - before;
    return isHome;
  }

  function isAtHome({ a, b }: Planes): boolean {
    return homeLimbs.every(
      ({ limb, mask }) => ((a[limb] ^ home.a[limb]) & mask) === 0 && ((b[limb] ^ home.b[limb]) & mask) === 0,
    );
  }

  return {
    get periods() {
      return run.periods;
    },
    get interpreted() {
      return run.interpreted;
    },
    get work() {
      return run.work;
    },
    refusal: program === null ? 'asked-for' : program.refusal,
    *advance(periods, listener) {
      yield* go(periods, listener, false);
    },
    advanceHome: (periods) => go(periods, null, true),
    settleHome() {
      home = stateOf(leaveCode());
    },
    *goTo(period) {
      const nearest = kept.before(period);
      if (period < run.periods || nearest.period > run.periods) {
        leaveCode();
        putState(machine, nearest.state);
        run.periods = nearest.period;
      }
      yield* go(period - run.periods, null, false);
    },
    machine: leaveCode,
  };
}

/** The code of a run: at first with whatever is unknown then, later without. */
function createProgram(question: LongRunQuestion, compile: ModuleCompiler | null) {
  const { machine } = question;
  const asked = (): CycleQuestion => ({
    plan: machine.plan,
    values: machine.values,
    order: machine.order,
    instants: question.instants,
    watched: question.watched,
    ...(question.home.length > 0 ? { home: question.home } : {}),
  });
  const first = compilePeriod(asked(), unknownNow(machine), compile);
  /** With fewer unknown than this it is tried again. */
  let triedBelow = Number.POSITIVE_INFINITY;
  let hasWidened = false;
  return {
    /** Code for what the machine holds: a period that was interpreted may have made something unknown. */
    fitting(now: CompiledPeriod): CompiledPeriod | null {
      const unknown = unknownNow(machine);
      if ([...unknown].every((position) => now.isOpen.has(position))) return now;
      hasWidened = true;
      const wider = compilePeriod(asked(), new Set([...unknown, ...now.isOpen]), compile);
      return typeof wider === 'string' ? null : wider;
    },
    refusal: typeof first === 'string' ? first : null,
    first: () => (typeof first === 'string' ? null : first),
    /** Code that keeps less open than `now`, if what is unknown by now allows it. */
    closed(now: CompiledPeriod): CompiledPeriod | null {
      const unknown = unknownNow(machine);
      if (hasWidened || unknown.size >= now.isOpen.size || unknown.size >= triedBelow) return null;
      triedBelow = (unknown.size + 1) / 2;
      const next = compilePeriod(asked(), unknown, compile);
      return typeof next === 'string' || next.isOpen.size >= now.isOpen.size ? null : next;
    },
  };
}

/** Positions of registers and latches that hold something unknown. */
function unknownNow({ plan, values }: SettledMachine): ReadonlySet<number> {
  const positions = [
    ...plan.registers.map(({ position }) => position),
    ...plan.latches.map(({ node }) => plan.positionOf[node]),
  ];
  return new Set(positions.filter((position) => values.views[position].b.some((limb) => limb !== 0)));
}

function tellLog({ log }: CompiledPeriod, from: number, listener: ChangeListener): void {
  for (let entry = 0; entry < log.count; entry++) {
    const change = { period: from + log.periodAt(entry), instant: log.instantAt(entry), watched: log.watchedAt(entry) };
    const plane = (name: 'a' | 'b'): [number, number] => [log.limbAt(entry, name, 0), log.limbAt(entry, name, 1)];
    listener(change, plane('a'), plane('b'));
  }
}

// A run under its one root clock, taken over by a long run: how many root periods lie between two equal states where that
// is more than stepping can show, and what single bits do in between.

import type { ModuleCompiler } from '../cycles/compiled-module';
import type { Watched } from '../cycles/plan';
import type { Bit } from '../netlist/netlist';
import { createLongRun, type LongRun } from './long-run';
import { closeTally, createTally, type Tally, tallyLevel } from './ratio-tally';
import { levelAt } from './settled-logic';
import type { Run } from './settled-run';

export interface LongTour {
  /** Root periods after which the state is back. */
  readonly period: number;
  /** Of the bits, then of the clocks asked for, over one period: of bits no more than counts. */
  readonly tallies: readonly Tally[];
}

/** Terms that all long runs of one question may work out together. */
export interface LongPurse {
  left: number;
}

/** Some tenths of a second. */
const mostWork = 2 ** 29;

export function createLongPurse(): LongPurse {
  return { left: mostWork };
}

/**
 * Null where the state does not return within `limit` root periods, where the purse is empty first, and where the
 * circuit is not compiled. The run then stands at a state that returns.
 */
export function* tourLong(
  run: Run,
  { bits, clocks }: { readonly bits: readonly Bit[]; readonly clocks: readonly Bit[] },
  {
    compile,
    limit,
    purse,
  }: { readonly compile: ModuleCompiler | null; readonly limit: number; readonly purse: LongPurse },
): Generator<void, LongTour | null> {
  const all = [...bits, ...clocks];
  const finding = longOf(run, { compile, watched: [], home: run.state });
  if (finding.refusal !== null) return null;
  const period = yield* returnOf(finding, limit, purse);
  run.periods += finding.periods;
  finding.machine();
  if (period === null || purse.left < 0) return null;
  const touring = longOf(run, { compile, watched: all.map((bit) => watchedBit(run, bit)), home: [] });
  const tallies = all.map((bit, index) => createTally(levelOf(run, bit), index < bits.length ? 'count' : 'edges'));
  yield* touring.advance(period, ({ instant, period: at, watched }, [a], [b]) => {
    tallyLevel(tallies[watched], 2 * at + instant, a + 2 * b);
  });
  for (const tally of tallies) closeTally(tally, 2 * period);
  touring.machine();
  run.periods += period;
  purse.left -= touring.work;
  return { period, tallies };
}

interface LongOptions {
  readonly compile: ModuleCompiler | null;
  readonly watched: readonly Watched[];
  readonly home: Run['state'];
}

/** From where the run stands; whoever goes on with the run asks for the machine first. */
export function longOf(run: Run, { compile, home, watched }: LongOptions): LongRun {
  const { machine, restLevel, source } = run;
  const position = machine.plan.positionOf[source.node];
  const edge = (level: 0 | 1) => [{ position, bit: source.bit, level }];
  const instants = [edge(restLevel === 0 ? 1 : 0), edge(restLevel)];
  return createLongRun({ machine, instants, watched, home, compile });
}

export function watchedBit({ machine }: Run, { bit, node }: Bit): Watched {
  return { position: machine.plan.positionOf[node], low: bit, width: 1 };
}

function levelOf({ machine: { plan, values } }: Run, { bit, node }: Bit): number {
  return levelAt(plan, values, plan.positionOf[node], bit);
}

/** The first return to a state that comes again: R. P. Brent, BIT 20 (1980) 176-184 (from memory). */
function* returnOf(run: LongRun, limit: number, purse: LongPurse): Generator<void, number | null> {
  for (let stretch = 1; run.periods < limit && purse.left > 0; stretch *= 2) {
    run.settleHome();
    const from = run.periods;
    const before = run.work;
    const isHome = yield* run.advanceHome(Math.min(stretch, limit));
    purse.left -= run.work - before;
    if (isHome) return run.periods - from;
  }
  return null;
}

// The stages behind elaboration, in their order: clocks, drive, prediction, findings; and a run of the waves.

import type { Limits } from '../budget';
import { findClocks } from '../clocks/find-clocks';
import type { ModuleCompiler } from '../cycles/compiled-module';
import type { DelaySet } from '../delays/delay-set';
import { withSpecified } from '../delays/specified-set';
import type { Places } from '../explain/places';
import { findHazards, findPlainHazards } from '../hazards/all';
import type { Searches } from '../hazards/glitch-searches';
import { analyzeGlitches } from '../hazards/glitches';
import type { Bench } from '../netlist/bench';
import { createBitNames } from '../netlist/bit-names';
import type { Netlist } from '../netlist/netlist';
import { findViolations } from '../predict/check-runs';
import { driveOf } from '../predict/drive-of';
import { wavesOfBench } from '../predict/drive-told';
import { withPullUps } from '../predict/open-drain';
import { predict } from '../predict/predict';
import { findSettlingReads } from '../predict/settling-reads';
import { predictWaves } from '../predict/timed-engine';
import type { Waves } from '../predict/waves';
import { findWindows, type Windows } from '../predict/windows';
import { statedOverrides } from './delay-choice';
import type { DesignFacts } from './design-facts';
import { type DumpAsked, driveOfDump, type DumpDrive } from './dump-drive';
import type { StudyOptions } from './options';
import { meetOwnDelays } from './own-delays';
import { previewChanges, previewEnd } from './preview-end';
import { ratedBits } from './rated-bits';

export interface DesignSettings {
  readonly options: StudyOptions;
  readonly delaySet: DelaySet;
  readonly places: Places;
  /** A test bench of the design among its files. */
  readonly bench: Bench | null;
  /** A value change dump that the project names, with its text where it is at hand. */
  readonly compile: ModuleCompiler | null;
  readonly dump: { readonly asked: DumpAsked; readonly text: string | null } | null;
}

/** All but the search for glitches, which can take far longer than everything else: `searchGlitches`. */
export function* studyDesign(
  elaborated: Netlist,
  { bench, compile, delaySet: chosen, dump, options, places }: DesignSettings,
): Generator<void, DesignFacts> {
  const { limits } = options;
  const netlist = withPullUps(elaborated);
  const { delaySet: met, uses: ownDelays } = meetOwnDelays(netlist, chosen, statedOverrides(options));
  const delaySet = withSpecified(netlist, met);
  const network = yield* findClocks(netlist, options.clocks);
  const dumped = dump === null ? noDump : yield* driveOfDump(dump.asked, dump.text, netlist, limits);
  const told = new Map([...wavesOfBench(bench), ...dumped.waves]);
  const driven = driveOf(netlist, network, options.drive, told);
  const drive = { ...driven, assumptions: [...driven.assumptions, ...dumped.assumptions] };
  const rated = ratedBits(netlist, options).map(({ bit }) => bit);
  const { start } = options.drive;
  const prediction = yield* predict({ netlist, network, drive, delaySet, start, limits, rated, compile });
  const stated = { strobes: options.strobes, static: options.clocks.static };
  const until = previewEnd(prediction);
  const run = { netlist, network, drive, delaySet, start, until, limits: previewLimits(limits) };
  const violations = yield* findViolations(run);
  const reads = yield* findSettlingReads({ ...run, prediction });
  const about = { netlist, network, prediction, limits, options: stated };
  const findings = yield* findPlainHazards({ ...about, violations, reads });
  const names = createBitNames(netlist);
  const hazards = { isSearched: false, findings, glitches: [], limits: [] };
  return { options, places, netlist, names, network, prediction, ownDelays, violations, reads, hazards };
}

const noDump: DumpDrive = { waves: new Map(), assumptions: [] };

/** The same facts, with the glitches and what is found from them. */
export function* searchGlitches(facts: DesignFacts, searches: Searches): Generator<void, DesignFacts> {
  const { netlist, network, options, prediction, reads, violations } = facts;
  const stated = { strobes: options.strobes, static: options.clocks.static };
  const about = { netlist, network, prediction, limits: options.limits, options: stated };
  const { glitches, limits } = yield* analyzeGlitches(about, searches);
  const findings = yield* findHazards({ ...about, glitches, violations, reads }, facts.hazards.findings);
  return { ...facts, hazards: { isSearched: true, findings, glitches, limits } };
}

/** `until`: ps. */
export function runWaves(facts: DesignFacts, until: number): Generator<void, Waves> {
  return runWithin(facts, until, facts.options.limits);
}

/** The run that the preview draws: no longer than a page can hold, however large the design. */
export function previewWaves(facts: DesignFacts): Generator<void, Waves> {
  return runWithin(facts, previewEnd(facts.prediction), previewLimits(facts.options.limits));
}

export interface PreviewRun {
  readonly waves: Waves;
  readonly windows: Windows;
}

export function* runPreview(facts: DesignFacts): Generator<void, PreviewRun> {
  const { netlist, network, prediction } = facts;
  const { delaySet, drive } = prediction;
  const waves = yield* previewWaves(facts);
  return { waves, windows: yield* findWindows({ netlist, network, delaySet, drive, waves }) };
}

function previewLimits(limits: Limits): Limits {
  return { ...limits, changes: Math.min(limits.changes, previewChanges) };
}

function runWithin(
  { netlist, network, options, prediction }: DesignFacts,
  until: number,
  limits: Limits,
): Generator<void, Waves> {
  const { delaySet, drive } = prediction;
  return predictWaves({ netlist, network, drive, delaySet, until, limits, start: options.drive.start });
}

/** The longest that anything takes to answer an edge, ps: what an account of that edge must be run past. */
export function answerTime({ prediction }: DesignFacts): number {
  const slowest = prediction.drive.clocks.reduce((most, { period }) => Math.max(most, period), 1_000);
  return prediction.registers.reduce((most, { settles }) => Math.max(most, settles?.all.max ?? 0), 0) + slowest;
}

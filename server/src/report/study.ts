// The door into the core: files and options in, every answer out. Each stage is a generator that yields after a fixed
// amount of work, runs when it is first asked for and only once. A study never changes: an edit makes a new one.

import { type Elaboration, elaborate } from '../elaborate/elaborate';
import type { ElaborationReason } from '../elaborate/reasons';
import { type Account, accountOf } from '../explain/account';
import { accountContext } from '../explain/account-steps';
import { findBits } from '../explain/find-bits';
import { createPlaces, type Places } from '../explain/places';
import type { Waves } from '../predict/waves';
import { type Reading, type ReadOptions, readFiles } from '../syntax/read';
import type { SliceParser } from '../syntax/slice-parser';
import { compareText } from '../text/compare';
import type { Complaint } from '../text/complaint';
import type { SourceFile } from '../text/source';
import { buildPreview, emptyPreview } from './build-preview';
import { buildReport } from './build-report';
import { chooseDelaySet } from './delay-choice';
import { openDataFiles } from './data-files';
import type { DesignFacts } from './design-facts';
import { once, type Stage } from './once';
import type { StudyOptions } from './options';
import type { PreviewData } from './preview-data';
import type { Report } from './report';
import { acceptancesIn } from './text-acceptances';
import { answerTime, runPreview, runWaves, studyDesign } from './study-design';
import { writeDump } from './write-dump';

export interface StudyInput {
  /** To be compiled, in order. */
  readonly files: readonly SourceFile[];
  /** At hand for includes and data files that earlier studies wanted. */
  readonly provided: readonly SourceFile[];
  /** Where includes are looked for, with `/`. */
  readonly includeFolders: readonly string[];
  readonly options: StudyOptions;
  /** An earlier reading with the same limits: what has not changed is taken from it, so that an edit costs what it changes. */
  readonly previous?: Reading;
}

/** What a study lacks: the edge may find it and begin a new study. */
export interface Wanted {
  /** Paths where an include may be found, in the order to try them. */
  readonly includes: readonly string[];
  /** Paths where a file that `$readmemh` or `$readmemb` names may be found, in the order to try them. */
  readonly data: readonly string[];
  /** Modules, or interfaces, that are instantiated and not given. */
  readonly modules: readonly string[];
  /** Packages that are named and not given. */
  readonly packages: readonly string[];
  /** Interfaces that ports name and that are not given. */
  readonly interfaces: readonly string[];
}

export interface Study {
  readonly input: StudyInput;
  readonly reading: Stage<Reading>;
  readonly wanted: Stage<Wanted>;
  readonly elaboration: Stage<Elaboration>;
  /** From places of any stage to spans. */
  readonly places: Stage<Places>;
  /** Everything found out about the design; null where no top could be chosen. */
  readonly design: Stage<DesignFacts | null>;
  readonly report: Stage<Report>;
  /** What happens before `until`, ps; null where there is no design. */
  waves(until: number): Generator<void, Waves | null>;
  readonly preview: Stage<PreviewData>;
  /** The run of the preview as a value change dump; without a design, nothing. */
  readonly dump: Stage<string>;
  /** Why a signal (full name) changed at an instant, ps, or did not: one account per bit; null for an unknown signal. */
  accounts(signal: string, at: number): Generator<void, readonly Account[] | null>;
}

/** Throws a `Refusal` where an option cannot be followed: a delay set that nobody stated. */
export function study(input: StudyInput, parser: SliceParser): Study {
  const { options } = input;
  const delaySet = chooseDelaySet(options);
  const reading = once(() => readFiles(input.files, readOptionsOf(input), parser));
  const places = once(function* () {
    const { files, units } = yield* reading();
    return createPlaces(files, units);
  });
  const dataFiles = once(function* () {
    return openDataFiles(input, yield* reading());
  });
  const elaboration = once(function* () {
    const { units } = yield* reading();
    const { limits, parameters, top } = options;
    const { find: dataFile } = yield* dataFiles();
    return yield* elaborate({ units, top, parameters, limits, dataFile });
  });
  const wanted = once(function* () {
    const { wanted: includes } = yield* reading();
    // Without its includes a file cannot say which modules it needs.
    const { netlist, complaints } = includes.length > 0 ? nothingElaborated : yield* elaboration();
    const modules = new Set(netlist?.blackBoxes.map(({ module }) => module));
    const data = (yield* dataFiles()).wanted();
    return {
      includes,
      data,
      modules: [...modules].sort(compareText),
      packages: namesLacked(complaints, 'unknown-package', 'package'),
      interfaces: namesLacked(complaints, 'interface-not-given', 'interface'),
    };
  });
  const design = once(function* () {
    const { bench, netlist } = yield* elaboration();
    return netlist === null ? null : yield* studyDesign(netlist, { options, delaySet, places: yield* places(), bench });
  });
  const report = once(function* () {
    const { complaints: ofReading } = yield* reading();
    const { complaints, modules, otherTops, top } = yield* elaboration();
    const benches = new Set(modules.flatMap(({ isTestBench, unit }) => (isTestBench ? [unit] : [])));
    const facts = yield* design();
    const { files } = yield* reading();
    return yield* buildReport({
      options,
      files: input.files.map(({ path }) => path),
      places: yield* places(),
      // What a test bench alone can do is not read, and one complaint says so (definition 44).
      complaints: [
        ...ofReading.filter(({ id, place }) => id !== 'unsupported' || !benches.has(place.unit)),
        ...complaints,
        ...(facts?.hazards.limits ?? []),
      ],
      acceptances: acceptancesIn(files),
      top,
      otherTops,
      delaySet,
      design: facts,
    });
  });
  const runs = new Map<number, Stage<Waves | null>>();

  function* waves(until: number): Generator<void, Waves | null> {
    const facts = yield* design();
    if (facts === null) return null;
    const run = runs.get(until) ?? once(() => runWaves(facts, until));
    runs.set(until, run);
    return yield* run();
  }

  return {
    input,
    reading,
    wanted,
    places,
    elaboration,
    design,
    report,
    waves,
    preview: once(function* () {
      const { findings } = yield* report();
      const facts = yield* design();
      if (facts === null) return emptyPreview(delaySet, options, findings);
      return yield* buildPreview(facts, yield* runPreview(facts), findings);
    }),
    dump: once(function* () {
      const facts = yield* design();
      if (facts === null) return '';
      const { assumptions, delaySet: set } = yield* report();
      const comments = [
        `delays: ${set.name}`,
        ...assumptions.map(({ about, reason, value }) => `${about} ${value}: ${reason}`),
      ];
      return yield* writeDump(facts.netlist, yield* runPreview(facts), comments);
    }),
    *accounts(signal, at) {
      const facts = yield* design();
      const bits = facts === null ? null : findBits(facts.netlist, signal);
      if (facts === null || bits === null) return null;
      const context = accountContext({ ...facts, waves: yield* runWaves(facts, at + answerTime(facts)) });
      return bits.map(({ bit, name }) => accountOf(context, bit, name, at));
    },
  };
}

const nothingElaborated = { netlist: null, complaints: [] } as const;

/** What complaints for one reason name, each once. */
function namesLacked(complaints: readonly Complaint[], reason: ElaborationReason, argument: string): readonly string[] {
  const names = complaints.flatMap((complaint) =>
    complaint.reason === reason ? [`${complaint.args[argument] ?? ''}`] : [],
  );
  return [...new Set(names)].sort(compareText);
}

function readOptionsOf({ includeFolders, options, previous, provided }: StudyInput): ReadOptions {
  const { defines, limits } = options;
  return { defines, includeFolders, limits, provided, ...(previous === undefined ? {} : { previous }) };
}

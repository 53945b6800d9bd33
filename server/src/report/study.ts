// The door into the core: files and options in, every answer out. Each stage is a generator that yields after a fixed
// amount of work, runs when it is first asked for and only once. A study never changes: an edit makes a new one.

import type { ModuleCompiler } from '../cycles/compiled-module';
import { type Elaboration, elaborate } from '../elaborate/elaborate';
import type { KeptTemplates } from '../elaborate/kept-templates';
import type { ElaborationReason } from '../elaborate/reasons';
import { type Account, accountOf } from '../explain/account';
import { accountContext } from '../explain/account-steps';
import { findBits } from '../explain/find-bits';
import { createPlaces, type Places } from '../explain/places';
import { createSearches, type Searches } from '../hazards/glitch-searches';
import type { Waves } from '../predict/waves';
import { type Reading, type ReadOptions, readFiles } from '../syntax/read';
import type { SliceParser } from '../syntax/slice-parser';
import { compareText } from '../text/compare';
import type { Complaint } from '../text/complaint';
import type { SourceFile } from '../text/source';
import { buildPreview, emptyPreview } from './build-preview';
import { buildReport } from './build-report';
import { buildWhatIf } from './build-what-if';
import { buildStates } from './build-states';
import { chooseDelaySet } from './delay-choice';
import type { DumpAsked } from './dump-drive';
import { openDataFiles } from './data-files';
import type { DesignFacts } from './design-facts';
import { reviewItems } from './review-items';
import { once, type Stage } from './once';
import type { StudyOptions } from './options';
import type { PreviewData, PreviewStates } from './preview-data';
import { previewEnd } from './preview-end';
import type { Report } from './report';
import { acceptancesIn } from './text-acceptances';
import { optionsWithWhatIf, varyNetlist } from './what-if';
import { answerTime, previewWaves, runPreview, runWaves, searchGlitches, studyDesign } from './study-design';
import { writeDump } from './write-dump';

export interface StudyInput {
  /** To be compiled, in order. */
  readonly files: readonly SourceFile[];
  /** At hand for includes and data files that earlier studies wanted. */
  readonly provided: readonly SourceFile[];
  /** Where includes are looked for, with `/`. */
  readonly includeFolders: readonly string[];
  readonly options: StudyOptions;
  /** A value change dump that drives the design; its text is handed over like a data file's. */
  readonly dump?: DumpAsked | null;
  /** An earlier reading with the same limits: what has not changed is taken from it, so that an edit costs what it changes. */
  readonly previous?: Reading;
  /** Where code may be made; without it long runs take several times as long, and some are left open. */
  readonly compile?: ModuleCompiler;
  /** Modules of an earlier elaboration, which are taken where they still hold. */
  readonly kept?: KeptTemplates;
  /** Searches for glitches of an earlier study, which are taken where they still hold. */
  readonly searches?: Pick<Searches, 'kept'>;
}

/** What a study lacks: the edge may find it and begin a new study. */
export interface Wanted {
  /** Paths where an include may be found, in the order to try them. */
  readonly includes: readonly string[];
  /** Paths where a file that `$readmemh`, `$readmemb` or the project's dump names may be found, in the order to try them. */
  readonly data: readonly string[];
  /** Modules, or interfaces, that are instantiated and not given. */
  readonly modules: readonly string[];
  /** Packages that are named and not given. */
  readonly packages: readonly string[];
  /** Interfaces that ports name and that are not given. */
  readonly interfaces: readonly string[];
}

/** What is found out about a design, and what is made of it for a person to read. */
export interface Answers {
  /** Null where no top could be chosen. */
  readonly design: Stage<DesignFacts | null>;
  readonly report: Stage<Report>;
  readonly preview: Stage<PreviewData>;
}

/** Everything found out, the search for glitches included. */
export interface Study extends Answers {
  readonly input: StudyInput;
  readonly reading: Stage<Reading>;
  readonly wanted: Stage<Wanted>;
  readonly elaboration: Stage<Elaboration>;
  /** For the next study: they fill while this one searches. */
  readonly searches: Pick<Searches, 'kept'>;
  /** From places of any stage to spans. */
  readonly places: Stage<Places>;
  /** What asks for no search for glitches, which can take far longer than everything else: nothing of theirs is told. */
  readonly early: Answers;
  /** The whole where the search has ended or is soon at its end, else what is told without it. */
  soon(): Generator<void, Answers>;
  /** The states of what is counted, with inputs free; the whole preview has them too. */
  readonly states: Stage<readonly PreviewStates[]>;
  /** What happens before `until`, ps; null where there is no design. */
  waves(until: number): Generator<void, Waves | null>;
  /** The run of the preview as a value change dump; without a design, nothing. */
  readonly dump: Stage<string>;
  /** Why a signal (full name) changed at an instant, ps, or did not: one account per bit; null for an unknown signal. */
  accounts(signal: string, at: number): Generator<void, readonly Account[] | null>;
}

/** Throws a `Refusal` where an option cannot be followed: a delay set that nobody stated. */
export function study(input: StudyInput, parser: SliceParser): Study {
  return openStudy(input, parser, null);
}

/** What a variant takes over from the study that it is a variant of; its elaboration is varied. */
type Taken = Pick<Study, 'reading' | 'places' | 'elaboration'>;

function openStudy(input: StudyInput, parser: SliceParser, taken: Taken | null): Study {
  const { options } = input;
  const delaySet = chooseDelaySet(options);
  const searches = createSearches(input.searches);
  const dump = input.dump == null ? null : { asked: input.dump, text: dumpText(input, input.dump) };
  const reading = taken?.reading ?? once(() => readFiles(input.files, readOptionsOf(input), parser));
  const places =
    taken?.places ??
    once(function* () {
      const { files, units } = yield* reading();
      return createPlaces(files, units);
    });
  const dataFiles = once(function* () {
    return openDataFiles(input, yield* reading());
  });
  const elaboration =
    taken?.elaboration ??
    once(function* () {
      const { units } = yield* reading();
      const { limits, parameters, top } = options;
      const { find: dataFile } = yield* dataFiles();
      const { kept } = input;
      return yield* elaborate({ units, top, parameters, limits, dataFile, ...(kept === undefined ? {} : { kept }) });
    });
  const wanted = once(function* () {
    const { wanted: includes } = yield* reading();
    // Without its includes a file cannot say which modules it needs.
    const { netlist, complaints } = includes.length > 0 ? nothingElaborated : yield* elaboration();
    const modules = new Set(netlist?.blackBoxes.map(({ module }) => module));
    const data = [...(yield* dataFiles()).wanted(), ...(dump !== null && dump.text === null ? [dump.asked.path] : [])];
    return {
      includes,
      data,
      modules: [...modules].sort(compareText),
      packages: namesLacked(complaints, 'unknown-package', 'package'),
      interfaces: namesLacked(complaints, 'interface-not-given', 'interface'),
    };
  });
  const unsearched = once(function* () {
    const { bench, netlist } = yield* elaboration();
    return netlist === null
      ? null
      : yield* studyDesign(netlist, {
          options,
          delaySet,
          places: yield* places(),
          bench,
          dump,
          compile: input.compile ?? null,
        });
  });
  const { whatIf: asked } = options;
  const variant = asked.length === 0 ? null : openStudy(...variantOf(input, parser, { reading, places, elaboration }));
  const searched = once(function* () {
    const facts = yield* unsearched();
    // What is asked besides is a part of the whole.
    yield* variant?.design() ?? noDesign();
    return facts === null ? null : yield* searchGlitches(facts, searches);
  });

  function* reportOn(design: Answers['design']): Generator<void, Report> {
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
  }

  const states = once(function* () {
    const facts = yield* unsearched();
    return facts === null ? [] : yield* buildStates(facts);
  });

  const previewRun = once(function* () {
    const facts = yield* unsearched();
    return facts === null ? null : yield* runPreview(facts);
  });

  function answersFrom(design: Answers['design'], other: Answers | null): Answers {
    const ownReport = once(() => reportOn(design));
    const ownPreview = once(function* () {
      const report = yield* ownReport();
      const { findings } = report;
      const facts = yield* design();
      const run = yield* previewRun();
      return facts === null || run === null
        ? emptyPreview(delaySet, options, findings)
        : yield* buildPreview(facts, run, {
            findings,
            review: reviewItems(report),
            states: facts.hazards.isSearched ? yield* states() : [],
          });
    });
    if (other === null) return { design, report: ownReport, preview: ownPreview };
    const whatIf = once(function* () {
      const { netlist } = yield* elaboration();
      const refusals = netlist === null ? [] : varyNetlist(netlist, asked).refusals;
      const now = { report: yield* ownReport(), preview: yield* ownPreview() };
      // A design that cannot be asked so is not studied otherwise.
      const then = refusals.length > 0 ? now : { report: yield* other.report(), preview: yield* other.preview() };
      return buildWhatIf(asked, refusals, now, then);
    });
    const report = once(function* () {
      return { ...(yield* ownReport()), whatIf: (yield* whatIf()).ofReport };
    });
    const preview = once(function* () {
      return { ...(yield* ownPreview()), whatIf: (yield* whatIf()).ofPreview };
    });
    return { design, report, preview };
  }

  const early = answersFrom(unsearched, variant?.early ?? null);
  const whole = answersFrom(searched, variant);
  const runs = new Map<number, Stage<Waves | null>>();
  let told: { readonly until: number; readonly run: Stage<Waves> } | null = null;

  function* waves(until: number): Generator<void, Waves | null> {
    const facts = yield* unsearched();
    if (facts === null) return null;
    const run = runs.get(until) ?? once(() => runWaves(facts, until));
    runs.set(until, run);
    return yield* run();
  }

  /** Accounts asked for one after the other are told from one run: the first one's, while they fall within it. */
  function* runPast(facts: DesignFacts, time: number): Generator<void, Waves> {
    if (told === null || told.until < time) {
      const until = Math.max(time, previewEnd(facts.prediction));
      told = { until, run: once(() => runWaves(facts, until)) };
    }
    return yield* told.run();
  }

  return {
    input,
    reading,
    wanted,
    places,
    elaboration,
    searches,
    ...whole,
    early,
    states,
    *soon() {
      yield* unsearched();
      const search = searched();
      for (let turn = 0; turn < soonTurns; turn += 1) {
        if (search.next().done === true) return whole;
        yield;
      }
      return early;
    },
    waves,
    dump: once(function* () {
      const facts = yield* unsearched();
      if (facts === null) return '';
      const { assumptions, delaySet: set } = yield* whole.report();
      const comments = [
        `delays: ${set.name}`,
        ...assumptions.map(({ about, reason, value }) => `${about} ${value}: ${reason}`),
      ];
      return yield* writeDump(facts.netlist, yield* previewWaves(facts), comments);
    }),
    *accounts(signal, at) {
      const facts = yield* unsearched();
      const bits = facts === null ? null : findBits(facts.netlist, signal);
      if (facts === null || bits === null) return null;
      const context = accountContext({
        ...facts,
        drive: facts.prediction.drive,
        waves: yield* runPast(facts, at + answerTime(facts)),
      });
      return bits.map(({ bit, name }) => accountOf(context, bit, name, at));
    },
  };
}

/** The same texts, as read already, with what is asked in the netlist and in the options. */
function variantOf(input: StudyInput, parser: SliceParser, taken: Taken): Parameters<typeof openStudy> {
  const { whatIf: asked } = input.options;
  const elaboration = once(function* () {
    const before = yield* taken.elaboration();
    return before.netlist === null ? before : { ...before, netlist: varyNetlist(before.netlist, asked).netlist };
  });
  return [{ ...input, options: optionsWithWhatIf(input.options, asked) }, parser, { ...taken, elaboration }];
}

// biome-ignore lint/correctness/useYield: a stage without work
function* noDesign(): Generator<void, null> {
  return null;
}

/** Steps of the search for glitches, each a fixed amount of work, that an answer waits for. */
const soonTurns = 64;

const nothingElaborated = { netlist: null, complaints: [] } as const;

/** What complaints for one reason name, each once. */
function namesLacked(complaints: readonly Complaint[], reason: ElaborationReason, argument: string): readonly string[] {
  const names = complaints.flatMap((complaint) =>
    complaint.reason === reason ? [`${complaint.args[argument] ?? ''}`] : [],
  );
  return [...new Set(names)].sort(compareText);
}

function dumpText({ files, provided }: StudyInput, { path }: DumpAsked): string | null {
  return [...files, ...provided].find((file) => file.path === path)?.text ?? null;
}

function readOptionsOf({ includeFolders, options, previous, provided }: StudyInput): ReadOptions {
  const { defines, limits } = options;
  return { defines, includeFolders, limits, provided, ...(previous === undefined ? {} : { previous }) };
}

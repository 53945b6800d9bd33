// The whole report from what the stages found. Puts the parts in the order of the schema; each part has its own file.

import type { DelaySet } from '../delays/delay-set';
import { contentSignals } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Complaint } from '../text/complaint';
import { buildClocks, buildCrossings, buildDomains, buildResets } from './build-clocks';
import { buildCoverage } from './build-coverage';
import { buildAssumptions, buildDrive, buildStudiedDelays } from './build-drive';
import { buildFindings } from './build-findings';
import { buildGlitches } from './build-glitches';
import { buildLatches } from './build-latches';
import { buildOutputs } from './build-outputs';
import { buildRates } from './build-rates';
import { buildMemories } from './build-memories';
import { buildRegisters } from './build-registers';
import { buildChains, buildCounts } from './build-sequences';
import { buildStated } from './build-stated';
import type { DesignFacts } from './design-facts';
import type { StudyOptions } from './options';
import { inOrder, type Places } from '../explain/places';
import { parameterText } from './parameter-text';
import { type Report, type ReportSignal, schemaVersion } from './report';
import type { TextAcceptance } from './text-acceptances';
import { toolVersion } from './version';

export interface ReportFacts {
  readonly options: StudyOptions;
  /** Paths as given, in order. */
  readonly files: readonly string[];
  readonly places: Places;
  readonly complaints: readonly Complaint[];
  /** What comments in the text accept. */
  readonly acceptances: readonly TextAcceptance[];
  readonly top: string | null;
  readonly otherTops: readonly string[];
  readonly delaySet: DelaySet;
  /** Null where no top could be chosen. */
  readonly design: DesignFacts | null;
}

/** Yields between sections. */
export function* buildReport(facts: ReportFacts): Generator<void, Report> {
  const { acceptances, complaints, design, options, places } = facts;
  const findings = buildFindings({
    options,
    places,
    complaints,
    findings: design?.hazards.findings ?? [],
    acceptances,
    clockingModules: design === null ? new Set() : clockingModules(design),
  });
  yield;
  const sections = design === null ? noDesign : yield* buildDesign(design);
  return {
    foretick: toolVersion,
    schema: schemaVersion,
    top: facts.top,
    otherTops: facts.otherTops,
    parameters: design === null ? {} : parametersOf(design),
    files: facts.files,
    drive: design === null ? { clocks: [], resets: [], inputs: [] } : buildDrive(design),
    delaySet: buildStudiedDelays(design?.prediction.delaySet ?? facts.delaySet, options, design?.ownDelays ?? []),
    assumptions: design === null ? [] : [...buildAssumptions(design), ...buildStated(design, acceptances, findings)],
    coverage: buildCoverage(places, complaints, design),
    ...sections,
    findings,
    whatIf: null,
  };
}

type Sections = Omit<
  Report,
  | 'foretick'
  | 'schema'
  | 'top'
  | 'otherTops'
  | 'parameters'
  | 'files'
  | 'drive'
  | 'delaySet'
  | 'assumptions'
  | 'coverage'
  | 'findings'
  | 'whatIf'
>;

/** Transfers are not studied yet: their list is empty. */
function* buildDesign(design: DesignFacts): Generator<void, Sections> {
  const signals = buildSignals(design);
  yield;
  const registers = buildRegisters(design);
  yield;
  const clocks = buildClocks(design);
  yield;
  const glitches = buildGlitches(design);
  yield;
  return {
    ...noDesign,
    signals,
    registers,
    latches: buildLatches(design),
    memories: buildMemories(design),
    clocks,
    domains: buildDomains(design),
    chains: buildChains(design),
    counts: buildCounts(design),
    crossings: buildCrossings(design),
    resets: buildResets(design),
    glitches,
    outputs: buildOutputs(design),
    rates: buildRates(design),
  };
}

const noDesign: Sections = {
  signals: [],
  registers: [],
  latches: [],
  memories: [],
  clocks: [],
  domains: [],
  chains: [],
  counts: [],
  transfers: [],
  crossings: [],
  resets: [],
  glitches: [],
  outputs: [],
  rates: [],
};

function buildSignals({ netlist, places }: DesignFacts): readonly ReportSignal[] {
  const contents = contentSignals(netlist);
  const listed = netlist.signals.filter(({ id }) => !contents.has(id));
  const built = listed.map(({ name, width, signed, place }) => ({
    name,
    width,
    signed,
    span: places.spanOf(place),
  }));
  return inOrder(built, ({ name }) => name);
}

/** Of the top, in source order; local ones too, since they decide what was elaborated. */
function parametersOf({ netlist }: DesignFacts): Report['parameters'] {
  const { parameters } = netlist.instances[netlist.top];
  return Object.fromEntries(parameters.map(({ name, value, signed }) => [name, parameterText(value, signed)]));
}

function clockingModules({ netlist, network }: DesignFacts): ReadonlySet<string> {
  const boxes = network.roots
    .filter(({ bit }) => netlist.nodes.op[bit.node] === Op.blackBox)
    .map(({ bit }) => netlist.blackBoxOutputs[netlist.nodes.aux[bit.node]].box);
  return new Set(boxes.map((box) => netlist.blackBoxes[box].module));
}

// The whole model of the Timing preview, from what the stages found and one run of the waves.

import type { DelaySet } from '../delays/delay-set';
import { cautions } from '../explain/cautions';
import { rateWords, shortListWords } from '../explain/words';
import { sourceBit } from '../netlist/trace';
import type { Waves } from '../predict/waves';
import { buildAssumptions, buildDelaySet, buildDrive } from './build-drive';
import { buildCounts } from './build-sequences';
import type { DesignFacts } from './design-facts';
import type { StudyOptions } from './options';
import type { PreviewData, PreviewGroup } from './preview-data';
import { markGlitches } from './preview-glitches';
import { listLines } from './preview-lines';
import { readReadings } from './preview-readings';
import { drawTraces } from './preview-traces';
import type { ReportFinding } from './report';
import type { PreviewRun } from './study-design';
import { toolVersion } from './version';
import { timeWords } from '../text/time-words';

/** Yields after a fixed amount of work. */
export function* buildPreview(
  facts: DesignFacts,
  run: PreviewRun,
  { findings, review, states }: Pick<PreviewData, 'findings' | 'review' | 'states'>,
): Generator<void, PreviewData> {
  const { waves } = run;
  const { netlist, prediction } = facts;
  const { table, traces } = yield* drawTraces(facts, run, listLines(facts));
  const glitches = markGlitches(facts, waves, traces);
  yield;
  return {
    foretick: toolVersion,
    top: netlist.instances[netlist.top].module,
    end: waves.end,
    headline: headlineOf(facts),
    drive: buildDrive(facts),
    delaySet: buildDelaySet(prediction.delaySet, facts.options),
    start: facts.options.drive.start,
    assumptions: buildAssumptions(facts),
    groups: buildGroups(facts, waves),
    traces,
    readings: readReadings(facts, run, traces),
    glitches,
    links: table.links,
    findings,
    counts: buildCounts(facts),
    states,
    review,
    cautions,
    cut: waves.cut === null ? null : cutWords(facts, waves.cut),
    whatIf: null,
  };
}

function cutWords({ names }: DesignFacts, { at, limit, nodes }: NonNullable<Waves['cut']>): string {
  const where = `the run ends at ${timeWords(at)}`;
  if (limit === 'changes') return `${where}: a page holds no more changes`;
  const moving = nodes.map((node) => names.nameOf({ node, bit: 0 })).filter((name) => name !== null);
  return `${where}: ${shortListWords([...new Set(moving)], 4) || 'the logic'} does not come to rest at that instant`;
}

/** Where no top could be chosen there is nothing to draw: the findings say why. */
export function emptyPreview(
  delaySet: DelaySet,
  options: StudyOptions,
  findings: readonly ReportFinding[],
): PreviewData {
  return {
    foretick: toolVersion,
    top: null,
    end: 0,
    headline: [],
    drive: { clocks: [], resets: [], inputs: [] },
    delaySet: buildDelaySet(delaySet, options),
    start: null,
    assumptions: [],
    groups: [],
    traces: [],
    readings: [],
    glitches: [],
    links: [],
    findings,
    counts: [],
    states: [],
    review: [],
    cautions,
    cut: null,
    whatIf: null,
  };
}

function headlineOf({ hazards, network, options, prediction }: DesignFacts): readonly string[] {
  const clocks = prediction.drive.clocks.map(({ name, period, root }) => {
    const edges = new Set(
      network.registers.flatMap((register) => (register.root?.root === root ? [register.root.edge] : [])),
    );
    const acts = edges.size === 1 && !edges.has('either') ? `, acts on its ${[...edges][0]} edge` : '';
    return `${name} ${rateWords(1e12 / period)}${acts}`;
  });
  const { conditions, name } = prediction.delaySet;
  const search = hazards.isSearched ? [] : ['glitches are still searched for'];
  return [
    ...clocks,
    `start ${options.drive.start}`,
    `delays: ${name}${conditions === null ? '' : `, ${conditions}`}`,
    ...search,
  ];
}

/** One per domain in the order of the network, and a last one for what belongs to none. */
function buildGroups(facts: DesignFacts, waves: Waves): readonly PreviewGroup[] {
  const domains = facts.network.domains.map(({ name, roots }) => ({
    name,
    rootEdges: rootEdgesOf(facts, waves, roots),
  }));
  return [...domains, { name: null, rootEdges: [] }];
}

/** The instants at which a root moves in a direction that some register follows. */
function rootEdgesOf({ netlist, network }: DesignFacts, waves: Waves, roots: readonly number[]): readonly number[] {
  const found = roots.flatMap((root) => {
    const edges = new Set(
      network.registers.flatMap((register) => (register.root?.root === root ? [register.root.edge] : [])),
    );
    const follows = (value: number) => edges.has('either') || edges.has(value === 1 ? 'rising' : 'falling');
    return Array.from(waves.changesOf(sourceBit(netlist.nodes, network.roots[root].bit)))
      .filter((change) => follows(waves.changes.value[change]))
      .map((change) => waves.changes.time[change]);
  });
  return [...new Set(found)].sort((left, right) => left - right);
}

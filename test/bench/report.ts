// How long a whole report takes, its stages apart, and how that grows with the design. The baseline is the bare parse of
// the same text; growth is told per line, against the smallest design of the same run.

import { limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import { builtInDelaySets } from '../../server/src/delays/built-in-sets';
import { elaborate } from '../../server/src/elaborate/elaborate';
import { findHazards, findPlainHazards } from '../../server/src/hazards/all';
import type { Glitch } from '../../server/src/hazards/glitch';
import type { GlitchContext } from '../../server/src/hazards/glitch-entries';
import { analyzeGlitches } from '../../server/src/hazards/glitches';
import { driveOf } from '../../server/src/predict/drive-of';
import { predict } from '../../server/src/predict/predict';
import { noSettings, optionsFrom } from '../../server/src/report/options';
import { noProject } from '../../server/src/report/project';
import { ratedBits } from '../../server/src/report/rated-bits';
import { study } from '../../server/src/report/study';
import { readFiles } from '../../server/src/syntax/read';
import { readyParser } from '../tools/parser';
import { toEnd } from '../tools/report-of';
import type { Claim } from './claim';
import { manyModules } from './designs';
import { interleave, ms, ratio, type Times } from './interleave';

const parser = await readyParser();
const readOptions = { defines: {}, includeFolders: [], provided: [], limits: limitDefaults };
const rounds = 5;

/** The first size is what growth is told against; the claim is about the last. */
export function benchReport(sizes: readonly number[]): readonly Claim[] {
  let last: Times<Stage> | null = null;
  const perLine: number[] = [];
  for (const lines of sizes) {
    const text = manyModules(lines);
    const times = timesOf(text);
    last = times;
    perLine.push(times.report / text.split('\n').length);
    console.log(
      `${lines} lines: bare parse ${ms(times.parse)}; report ${told(times, 'report')}; ` +
        `of it clocks ${told(times, 'clocks')}, prediction ${told(times, 'prediction')}, ` +
        `glitches ${told(times, 'glitches')}, other findings ${told(times, 'findings')}; ` +
        `preview ${told(times, 'preview')}`,
    );
  }
  const growth = perLine.map((time) => ratio(time, perLine[0])).join(', ');
  console.log(`report, CPU time per line at ${sizes.join(', ')} lines: ${growth}`);
  if (last === null) return [];
  const { clocks, findings, glitches, parse, prediction } = last;
  return [
    {
      subject: `from the netlist of ${sizes[sizes.length - 1]} lines to all findings`,
      candidate: { name: 'all stages', value: clocks + prediction + glitches + findings, unit: 'ms' },
      baseline: { name: 'the bare parse of the same text', value: parse, unit: 'ms' },
      bound: 2,
    },
  ];
}

type Stage = 'report' | 'clocks' | 'prediction' | 'glitches' | 'findings' | 'preview' | 'parse';

function told(times: Times<Stage>, stage: Stage): string {
  return `${ms(times[stage])} (${ratio(times[stage], times.parse)})`;
}

function timesOf(text: string): Times<Stage> {
  const files = [{ path: 'bench.v', text }];
  const options = optionsFrom(noProject, noSettings);
  const { limits, drive: driven, clocks } = options;
  const { units } = toEnd(readFiles(files, readOptions, parser));
  const { netlist } = toEnd(elaborate({ units, top: 'top', parameters: {}, limits }));
  if (netlist === null) throw new Error('the design has no netlist');
  const network = toEnd(findClocks(netlist, clocks));
  const drive = driveOf(netlist, network, driven);
  const [delaySet] = builtInDelaySets;
  const rated = ratedBits(netlist, options).map(({ bit }) => bit);
  const predicted = { netlist, network, drive, delaySet, start: driven.start, limits, rated };
  const about = {
    netlist,
    network,
    prediction: toEnd(predict(predicted)),
    limits,
    options: { strobes: [], static: [] },
  };
  const { glitches } = toEnd(analyzeGlitches(about));
  const opened = () => study({ files, provided: [], includeFolders: [], options }, parser);
  return interleave(rounds, {
    parse: () => parser.parse(text).delete(),
    report: () => toEnd(opened().report()),
    clocks: () => toEnd(findClocks(netlist, clocks)),
    prediction: () => toEnd(predict(predicted)),
    glitches: () => toEnd(analyzeGlitches(about)),
    findings: () => toEnd(findAll(about, glitches)),
    preview: () => toEnd(opened().preview()),
  });
}

function* findAll(about: GlitchContext, glitches: readonly Glitch[]): Generator<void, unknown> {
  const plain = yield* findPlainHazards({ ...about, violations: [], reads: [] });
  return yield* findHazards({ ...about, glitches, violations: [], reads: [] }, plain);
}

// `npm run bench`: how long stages take, as ratios against a baseline of the same run, interleaved, in CPU time. Medians
// of seven rounds after one that is not counted. No test asserts a time; claims about speed quote what this prints.

import { loadavg } from 'node:os';
import { limitDefaults } from '../../server/src/budget';
import { elaborate } from '../../server/src/elaborate/elaborate';
import { readFiles } from '../../server/src/syntax/read';
import { readyParser } from '../tools/parser';
import { toEnd } from '../tools/report-of';
import { manyModules } from './designs';

const parser = await readyParser();
const readOptions = { defines: {}, includeFolders: [], provided: [], limits: limitDefaults };

console.log(
  `load average ${loadavg()
    .map((load) => load.toFixed(2))
    .join(' ')}, node ${process.version}`,
);
for (const lines of [1_000, 5_000, 20_000]) benchReading(lines);

/** The bare parse of the same text, in one piece, is the baseline. */
function benchReading(lines: number): void {
  const text = manyModules(lines);
  const files = [{ path: 'bench.v', text }];
  const reading = toEnd(readFiles(files, readOptions, parser));
  const runs = interleave({
    parse: () => parser.parse(text).delete(),
    read: () => toEnd(readFiles(files, readOptions, parser)),
    elaborate: () => toEnd(elaborate({ units: reading.units, top: 'top', parameters: {}, limits: limitDefaults })),
  });
  const { parse, read, elaborate: build } = runs;
  console.log(
    `${lines} lines: bare parse ${ms(parse)}; text to tables ${ms(read)} (${ratio(read, parse)}); ` +
      `tables to netlist ${ms(build)} (${ratio(build, parse)}); text to netlist ${ratio(read + build, parse)} of the parse`,
  );
}

/** Median CPU time of each candidate in ms, every round running all of them once. */
function interleave<Name extends string>(candidates: Readonly<Record<Name, () => unknown>>): Record<Name, number> {
  const names = Object.keys(candidates) as Name[];
  const times = Object.fromEntries(names.map((name) => [name, [] as number[]])) as Record<Name, number[]>;
  for (let round = 0; round < 8; round++) {
    for (const name of names) {
      const before = process.cpuUsage();
      candidates[name]();
      const { user, system } = process.cpuUsage(before);
      if (round > 0) times[name].push((user + system) / 1_000);
    }
  }
  return Object.fromEntries(names.map((name) => [name, median(times[name])])) as Record<Name, number>;
}

function median(times: readonly number[]): number {
  return [...times].sort((left, right) => left - right)[Math.floor(times.length / 2)];
}

function ms(time: number): string {
  return `${time.toFixed(1)} ms`;
}

function ratio(time: number, baseline: number): string {
  return `${(time / baseline).toFixed(2)} x`;
}

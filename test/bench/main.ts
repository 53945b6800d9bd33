// `npm run bench`: how long stages take, as ratios against a baseline of the same run (`interleave.ts`). No test asserts
// a time; claims about speed quote what this prints.

import { loadavg } from 'node:os';
import { limitDefaults } from '../../server/src/budget';
import { elaborate } from '../../server/src/elaborate/elaborate';
import { readFiles } from '../../server/src/syntax/read';
import { readyParser } from '../tools/parser';
import { toEnd } from '../tools/report-of';
import { manyModules } from './designs';
import { interleave, ms, ratio } from './interleave';
import { benchReport } from './report';

const parser = await readyParser();
const readOptions = { defines: {}, includeFolders: [], provided: [], limits: limitDefaults };

console.log(
  `load average ${loadavg()
    .map((load) => load.toFixed(2))
    .join(' ')}, node ${process.version}`,
);
for (const lines of [1_000, 5_000, 20_000]) benchReading(lines);
benchReport([1_000, 5_000]);

/** The bare parse of the same text, in one piece, is the baseline. */
function benchReading(lines: number): void {
  const text = manyModules(lines);
  const files = [{ path: 'bench.v', text }];
  const reading = toEnd(readFiles(files, readOptions, parser));
  const runs = interleave(7, {
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

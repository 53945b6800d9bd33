// What it costs to read text and build the netlist, against the bare parse of the same text in one piece; and how that
// grows with the length of the text.

import { limitDefaults } from '../../server/src/budget';
import { elaborate } from '../../server/src/elaborate/elaborate';
import { readFiles } from '../../server/src/syntax/read';
import { readyParser } from '../tools/parser';
import { toEnd } from '../tools/report-of';
import type { Claim } from './claim';
import { manyModules } from './designs';
import { interleave, ms, ratio } from './interleave';

const parser = await readyParser();
const limits = limitDefaults;
const readOptions = { defines: {}, includeFolders: [], provided: [], limits };
const rounds = 5;

export function* benchReading(): Generator<Claim> {
  const [few, many] = [stagesOf(5_000), stagesOf(50_000)];
  const times = interleave(rounds, {
    parse: few.parse,
    read: few.read,
    elaborate: few.elaborate,
    readMany: many.read,
    elaborateMany: many.elaborate,
  });
  const whole = times.read + times.elaborate;
  console.log(
    `5,000 lines: bare parse ${ms(times.parse)}; text to tables ${ms(times.read)} (${ratio(times.read, times.parse)}); ` +
      `tables to netlist ${ms(times.elaborate)} (${ratio(times.elaborate, times.parse)})`,
  );
  yield {
    subject: '5,000 lines of text to the netlist',
    candidate: { name: 'in all', value: whole, unit: 'ms' },
    baseline: { name: 'the bare parse of the same text', value: times.parse, unit: 'ms' },
    bound: 4,
  };
  yield {
    subject: 'text to the netlist, per line',
    candidate: { name: 'of 50,000', value: (times.readMany + times.elaborateMany) / many.lines, unit: 'ms' },
    baseline: { name: 'of 5,000', value: whole / few.lines, unit: 'ms' },
    bound: 1.3,
  };
}

function stagesOf(least: number) {
  const text = manyModules(least);
  const files = [{ path: 'bench.v', text }];
  const { units } = toEnd(readFiles(files, readOptions, parser));
  return {
    lines: text.split('\n').length,
    parse: () => parser.parse(text).delete(),
    read: () => toEnd(readFiles(files, readOptions, parser)),
    elaborate: () => toEnd(elaborate({ units, top: 'top', parameters: {}, limits })),
  };
}

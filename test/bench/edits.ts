// What one typed character costs, from the edit to the findings of reading and to all of them, against the CSS server that
// editors ship: equally many lines, in turn. A person waits for this, so time is told as the clock shows it; the server that
// is not asked stands still meanwhile. Then how that grows with the text, and what many edits leave behind.

import { bundleServer } from '../editor/protocol/bundled-server';
import type { Claim } from './claim';
import { manyModules, oneModule } from './designs';
import { median } from './interleave';
import { peakOfTree } from './process-tree';
import { cssServerCommand, stylesOfLines } from './style-sheet';
import { openTypist, type Typist } from './typing';

/** One is typed, one taken away. */
const rounds = 60;
const warming = 6;
/** All findings take longer. */
const wholeRounds = 5;

/** `root`: the repository's folder. */
export async function* benchEdits(root: string): AsyncGenerator<Claim> {
  const bundle = bundleServer(root);
  const server = [bundle.path('server.js'), '--stdio'];
  try {
    yield* againstStyles(root, server);
    yield* growth(server);
    yield* memory(server);
  } finally {
    bundle.remove();
  }
}

const designs = [
  { name: 'many modules', text: manyModules(5_000), bounds: { median: 0.15, late: 0.2, whole: 1 } },
  { name: 'one module', text: oneModule(5_000), bounds: { median: 1.5, late: null, whole: 1.5 } },
];

async function* againstStyles(root: string, server: readonly string[]): AsyncGenerator<Claim> {
  for (const { bounds, name, text } of designs) {
    const lines = text.split('\n').length;
    const ours = await openVerilog(server, text);
    const sheet = { uri: 'file:///project/a.css', languageId: 'css', text: stylesOfLines(lines) };
    const styles = await openTypist(cssServerCommand(root), sheet);
    const claim = (what: string, value: number, baseline: number, bound: number): Claim => ({
      subject: `one character typed in ${lines} lines of ${name}: ${what}`,
      candidate: { name: 'ours', value, unit: 'ms' },
      baseline: { name: 'the CSS server', value: baseline, unit: 'ms' },
      bound,
    });
    const [first, css] = await typeInTurn([ours, styles]);
    yield claim('findings of reading, median', median(first), median(css), bounds.median);
    if (bounds.late !== null) yield claim('findings of reading, 95th percentile', late(first), late(css), bounds.late);
    const [whole, again] = await waitInTurn(ours, styles);
    yield claim('all findings, median', median(whole), median(again), bounds.whole);
    await Promise.all([ours, styles].map((each) => each.end()));
  }
}

/** The same edit in ten times the text. */
async function* growth(server: readonly string[]): AsyncGenerator<Claim> {
  const few = await openVerilog(server, manyModules(1_000));
  const many = await openVerilog(server, manyModules(10_000));
  const [timesOfFew, timesOfMany] = await typeInTurn([few, many]);
  await Promise.all([few, many].map((each) => each.end()));
  yield {
    subject: 'one character typed: findings of reading, median',
    candidate: { name: 'in 10,000 lines', value: median(timesOfMany), unit: 'ms' },
    baseline: { name: 'in 1,000 lines', value: median(timesOfFew), unit: 'ms' },
    bound: 1.3,
  };
}

async function* memory(server: readonly string[]): AsyncGenerator<Claim> {
  const typist = await openVerilog(server, manyModules(1_000));
  const peaks: number[] = [];
  for (let edit = 1; edit <= 1_000; edit += 1) {
    await typist.type();
    if (edit === 100 || edit === 1_000) peaks.push(peakOfTree(typist.process) / 1e6);
  }
  await typist.end();
  yield {
    subject: 'peak memory of the server in 1,000 lines',
    candidate: { name: 'after 1,000 edits', value: peaks[1], unit: 'MB' },
    baseline: { name: 'after 100', value: peaks[0], unit: 'MB' },
    bound: 1.1,
  };
}

/** Without the semicolon of the last statement. */
function openVerilog(server: readonly string[], whole: string): Promise<Typist> {
  const last = whole.lastIndexOf(';\nendmodule\n');
  const text = whole.slice(0, last) + whole.slice(last + 1);
  return openTypist(server, { uri: 'file:///project/a.v', languageId: 'verilog', text });
}

/** ms to the first findings, by typist. */
async function typeInTurn(typists: readonly Typist[]): Promise<readonly (readonly number[])[]> {
  const times: number[][] = typists.map(() => []);
  for (const typist of typists) typist.hold();
  for (let round = -warming; round < rounds; round += 1) {
    for (const [index, typist] of typists.entries()) {
      const time = await typist.type();
      typist.hold();
      if (round >= 0) times[index].push(time);
    }
  }
  return times;
}

/** ms to all findings, and to the first of the other. */
async function waitInTurn(ours: Typist, other: Typist): Promise<readonly (readonly number[])[]> {
  const times: [number[], number[]] = [[], []];
  for (let round = -1; round < wholeRounds; round += 1) {
    const whole = await ours.typeAndWait();
    const first = await other.type();
    if (round < 0) continue;
    times[0].push(whole);
    times[1].push(first);
  }
  return times;
}

function late(times: readonly number[]): number {
  return [...times].sort((left, right) => left - right)[Math.floor(times.length * 0.95)];
}

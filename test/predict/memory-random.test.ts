// Memories kept as one content, held to the same design with every word written out as a register of its own: random
// sizes, one writing process or two, lanes, resets, start settings, addresses that lie outside or are in part unknown. The
// waves of everything that is read must agree, in the engine with delays; and the settled stepper must agree with that.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { toBinary } from '../../server/src/netlist/four-state';
import { contentSignals, type Netlist } from '../../server/src/netlist/netlist';
import { begin, readNode, rest } from '../../server/src/predict/settled';
import { type StartSetting, startBitsOf } from '../../server/src/predict/start-level';
import { netlistOf } from '../tools/elaborated';
import { benchOf, signalNode } from './settled-bench';
import { runTimed } from './timed';

interface Recipe {
  readonly words: number;
  readonly width: number;
  readonly lanes: boolean;
  /** Which bit of the address is unknown until the fifth clock. */
  readonly unknown: number;
  readonly reset: 'none' | 'synchronous' | 'asynchronous';
  readonly initial: boolean;
  readonly start: StartSetting;
  /** A second write at the same edge, after the first one in the same process, or in a process of its own. */
  readonly second: 'none' | 'behind' | 'apart';
}

/** Of the first word that is used: so many more make the array larger than what is kept word by word. */
const base = 1088;

const recipes: fc.Arbitrary<Recipe> = fc.record({
  words: fc.integer({ min: 17, max: 24 }),
  width: fc.constantFrom(8, 16, 64),
  lanes: fc.boolean(),
  unknown: fc.integer({ min: 0, max: 7 }),
  reset: fc.constantFrom('none', 'synchronous', 'asynchronous'),
  initial: fc.boolean(),
  start: fc.constantFrom('0', '1', 'x'),
  second: fc.constantFrom('none', 'behind', 'apart'),
});

it('reads what words written out read, and the settled stepper reads the same', async () => {
  await fc.assert(
    fc.asyncProperty(recipes, async (drawn) => {
      // A reset without a clock is one process's alone: with two ports that is refused.
      const recipe: Recipe = isRefused(drawn) ? { ...drawn, reset: 'synchronous' } : drawn;
      const memory = await read(memoryText(recipe));
      const words = await read(wordsText(recipe));
      expect([contentSignals(memory).size, contentSignals(words).size]).toEqual([1, 0]);
      const waves = wavesOf(memory, recipe);
      expect(waves).toEqual(wavesOf(words, recipe));
      expect(new Set(waves).size).toBeGreaterThan(2);
      const rises = Array.from({ length: 70 }, (_, index) => 10 + 20 * index);
      expect(settledReadings(memory, recipe, rises.length)).toEqual(readingsBefore(memory, recipe, rises));
    }),
    { numRuns: 25 },
  );
}, 120_000);

function isRefused({ reset, second }: Recipe): boolean {
  return reset === 'asynchronous' && second === 'apart';
}

async function read(text: string): Promise<Netlist> {
  const { netlist, complaints } = await netlistOf(text);
  expect(complaints).toEqual([]);
  return netlist;
}

/** ns */
const period = 20;
const release = 45;

function timedRun(netlist: Netlist, { start }: Recipe) {
  const clocks = { clk: { period } };
  return runTimed(netlist, { clocks, resets: { rst_n: { release, active: 'low' } }, until: 1500, start });
}

/** What `q` and `r` read shortly after every edge of the clock. */
function wavesOf(netlist: Netlist, recipe: Recipe): readonly string[] {
  const timed = timedRun(netlist, recipe);
  const instants = Array.from({ length: 140 }, (_, index) => 10 * (index + 1) + 2);
  return instants.map((ns) => `${ns}: ${timed.at('q', ns)} ${timed.at('r', ns)}`);
}

function readingsBefore(netlist: Netlist, recipe: Recipe, rises: readonly number[]): readonly string[] {
  const timed = timedRun(netlist, recipe);
  return rises.map((ns) => `${timed.before('q', ns)} ${timed.before('r', ns)}`);
}

function settledReadings(netlist: Netlist, { start }: Recipe, count: number): readonly string[] {
  const bench = benchOf(netlist);
  begin(bench.machine, {
    register: (id) => startBitsOf(netlist, netlist.registers[id], start),
    latch: (id) => startBitsOf(netlist, netlist.latches[id], start),
  });
  bench.set('clk', '0');
  bench.set('rst_n', '0');
  rest(bench.machine);
  const reading = (name: string) => toBinary(readNode(bench.machine, signalNode(netlist, name)));
  return Array.from({ length: count }, (_, index) => {
    if (index === Math.ceil((release - period / 2) / period)) bench.change('rst_n', '1');
    const now = `${reading('q')} ${reading('r')}`;
    bench.period('clk');
    return now;
  });
}

function memoryText(recipe: Recipe): string {
  const { words, width, initial } = recipe;
  const last = base + words - 1;
  const write = (address: string, data: string) =>
    writes(recipe, data, (piece, part) => `mem[{5'b10001, ${address}}]${part} <= ${piece};`);
  return around(recipe, {
    declared: `reg [${width - 1}:0] mem [0:${last}];`,
    initial: initial ? `for (i = 3; i < ${words}; i = i + 1) mem[${base} + i] = i * 5; mem[${base} + 4] = 1;` : '',
    clear: `for (i = ${base}; i <= ${last}; i = i + 1) mem[i] <= 7;`,
    first: `if (s[5]) begin ${write('a', 'd')} end`,
    second: `if (s[2]) begin ${write('b', 'e')} end`,
    read: (address) => `mem[{5'b10001, ${address}}]`,
  });
}

/** Two processes that write one word at one edge leave what both agree on. */
function wordsText(recipe: Recipe): string {
  const { words, width, initial, second } = recipe;
  const each = Array.from({ length: words }, (_, word) => word);
  const write = (word: number, data: string) =>
    writes(recipe, data, (piece, part) => `w${word}${part} <= ${piece};`)
      .replace(/^/, 'begin ')
      .concat(' end');
  const one = (word: number) => `if (s[5] && a == ${word}) ${write(word, 'd')}`;
  const other = (word: number) => `if (s[2] && b == ${word}) ${write(word, 'e')}`;
  const both = (word: number) => `if (s[5] && a == ${word} && s[2] && b == ${word}) ${write(word, 'm')}`;
  const apart = each.map((word) => `${both(word)} else begin ${one(word)} ${other(word)} end`).join(' ');
  const behind = each.map((word) => `${one(word)} ${second === 'none' ? '' : other(word)}`).join(' ');
  return around(
    { ...recipe, second: 'none' },
    {
      declared: `reg [${width - 1}:0] ${each.map((word) => `w${word}`).join(', ')};
      wire [${words * width - 1}:0] all = {${[...each]
        .reverse()
        .map((word) => `w${word}`)
        .join(', ')}};`,
      initial: initial
        ? `${each
            .slice(3)
            .map((word) => `w${word} = ${word * 5};`)
            .join(' ')} w4 = 1;`
        : '',
      clear: each.map((word) => `w${word} <= 7;`).join(' '),
      first: second === 'apart' ? apart : behind,
      second: '',
      read: (address) => `all[{${address}, ${Math.log2(width)}'b0} +: ${width}]`,
    },
  );
}

function writes({ lanes, width }: Recipe, data: string, write: (piece: string, part: string) => string): string {
  if (!lanes) return write(data, '');
  return `if (s[9]) ${write(`${data}[0]`, '[0]')} if (s[11]) ${write(`${data}[${width - 1}:1]`, `[${width - 1}:1]`)}`;
}

interface Form {
  readonly declared: string;
  readonly initial: string;
  readonly clear: string;
  readonly first: string;
  readonly second: string;
  read(address: string): string;
}

function around({ width, unknown, reset, second }: Recipe, form: Form): string {
  const list = reset === 'asynchronous' ? 'posedge clk or negedge rst_n' : 'posedge clk';
  const body = `begin ${form.first} ${second === 'behind' ? form.second : ''} end`;
  const other = `always @(posedge clk) ${reset === 'none' ? '' : 'if (rst_n)'} begin ${form.second} end`;
  return `module m(input clk, input rst_n, output [${width - 1}:0] q, output reg [${width - 1}:0] r);
    reg [15:0] s; reg [2:0] count; reg u; integer i;
    ${form.declared}
    initial begin s = 16'h1d2b; count = 0; u = 1'bx; r = 0; ${form.initial} end
    wire [5:0] a = {1'b0, s[7:3]} ^ (${unknown < 6 ? `{5'b0, u} << ${unknown}` : 0});
    wire [5:0] b = {1'b0, s[13:9]};
    wire [${width - 1}:0] d = {4{s}};
    wire [${width - 1}:0] e = ~{4{s}} + 5;
    wire [${width - 1}:0] m = 1'bx ? d : e;
    always @(posedge clk) begin
      s <= {s[14:0], s[15] ^ s[13] ^ s[12] ^ s[10]};
      count <= count + 1;
      if (count == 5) u <= 0;
      r <= ${form.read('b')};
    end
    always @(${list}) ${reset === 'none' ? body : `if (!rst_n) begin ${form.clear} end else ${body}`}
    ${second === 'apart' ? other : ''}
    assign q = ${form.read('a')};
  endmodule`;
}

// The command line: what goes to which stream, and the exit status: 0 nothing to fail on, 1 something, 2 the run failed.
import { describe, expect, it } from 'vitest';
import { run } from './fake-world';

const toggle =
  'module toggle(input clk, output reg q);\n  initial q = 0;\n  always @(posedge clk) q <= ~q;\nendmodule\n';
const ripple = [
  'module two(input clk, output reg [1:0] q);',
  '  initial q = 0;',
  '  always @(negedge clk) q[0] <= ~q[0];',
  '  always @(negedge q[0]) q[1] <= ~q[1];',
  'endmodule',
].join('\n');
const memory = `module memory(input clk, input [10:0] at, output reg [7:0] out);
  reg [7:0] words [0:2047];
  always @(posedge clk) begin words[at] <= out + 1; out <= words[at]; end
endmodule
`;
const broken = 'module broken(input clk, output reg q);\n  always @(posedge clk) q <= ;\nendmodule\n';

async function json(files: Record<string, string>, ...args: readonly string[]) {
  const { complaint, output } = await run(files, 'report', ...args, '--format', 'json');
  expect(complaint).toBe('');
  return JSON.parse(output);
}

describe('exit status', () => {
  it('is 0 where nothing is found, 1 at or above --fail-on', async () => {
    expect((await run({ 'a.v': toggle }, 'report', 'a.v')).exitCode).toBe(0);
    expect((await run({ 'a.v': ripple }, 'report', 'a.v')).exitCode).toBe(0);
    expect((await run({ 'a.v': ripple }, 'report', 'a.v', '--fail-on', 'warning')).exitCode).toBe(1);
    expect((await run({ 'a.v': ripple }, 'report', 'a.v', '--fail-on', 'never')).exitCode).toBe(0);
  });

  it('is 1 for a syntax error, with the whole report', async () => {
    const { complaint, exitCode, output } = await run({ 'a.v': broken }, 'report', 'a.v', '--format', 'json');
    expect([exitCode, complaint]).toEqual([1, '']);
    expect(JSON.parse(output)).toMatchObject({ top: 'broken', findings: [{ id: 'syntax', severity: 'error' }] });
  });

  it('does not count what a person has accepted', async () => {
    const accepted = JSON.stringify({ accepted: [{ id: 'ripple-chain', signal: 'q[0]', reason: 'slow and meant' }] });
    const files = { 'a.v': ripple, 'foretick.json': accepted };
    expect((await run(files, 'report', 'a.v', '--fail-on', 'warning')).exitCode).toBe(0);
  });
});

describe('a run that fails', () => {
  it.each([
    ['no command', [], 'a command is missing: report, preview, compare, account, cure or serve'],
    ['an unknown command', ['frob'], "unknown command 'frob'"],
    ['a server without a channel', ['serve'], "required option '--stdio' not specified"],
    ['no file', ['report'], "missing required argument 'files'"],
    ['an unreadable file', ['report', 'none.v'], 'none.v cannot be read'],
    ['an unknown option', ['report', 'a.v', '--colour'], "unknown option '--colour'"],
    [
      'a format that is none of ours',
      ['report', 'a.v', '--format', 'xml'],
      'Allowed choices are text, json, markdown, sarif',
    ],
    ['a parameter without a value', ['report', 'a.v', '--set', 'W'], 'It must be written NAME=VALUE'],
    ['a limit that is no number', ['report', 'a.v', '--limit', 'unroll=many'], 'NAME=N'],
    ['a limit that is not ours', ['report', 'a.v', '--limit', 'speed=1'], 'no limit is called speed'],
    ['an unknown delay set', ['report', 'a.v', '--delays', 'fast'], 'no delay set is called fast: unit, ideal'],
    ['an unreadable project file', ['report', 'a.v', '--project', 'p.json'], 'p.json cannot be read'],
    ['a wrong project file', ['report', 'a.v', '--project', 'wrong.json'], 'wrong.json: clock is not a known key'],
    ['an instant that is none', ['account', 'a.v', '--signal', 'q', '--at', '5ns'], 'whole number of picoseconds'],
    [
      'a memory as a signal',
      ['account', 'memory.v', '--signal', 'words[3]', '--at', '5'],
      'words is a memory: ask for a signal that is read from it',
    ],
    ['an unknown signal', ['account', 'a.v', '--signal', 'p', '--at', '5'], 'no signal of toggle is called p: clk, q'],
  ])('with %s prints one line and nothing on standard output', async (_what, args, line) => {
    const ending = await run({ 'a.v': toggle, 'memory.v': memory, 'wrong.json': '{"clock": 1}' }, ...args);
    expect([ending.exitCode, ending.output]).toEqual([2, '']);
    expect(ending.complaint).toMatch(/^foretick: [^\n]+\n$/);
    expect(ending.complaint).toContain(line);
  });
});

describe('help and version', () => {
  it('go to standard output with exit 0', async () => {
    const help = await run({}, '--help');
    expect([help.exitCode, help.complaint]).toEqual([0, '']);
    expect(help.output).toContain('report');
    expect((await run({}, '--version')).output).toMatch(/^\d+\.\d+\.\d+\n$/);
    expect((await run({}, 'report', '--help')).output).toContain('--fail-on');
  });
});

describe('the report command', () => {
  it('gives the same bytes for the same input, and nothing of the folder', async () => {
    const first = await run({ 'sub/a.v': ripple }, 'report', 'sub/a.v', '--format', 'json');
    const second = await run({ 'sub/a.v': ripple }, 'report', 'sub/a.v', '--format', 'json');
    expect(first.output).toBe(second.output);
    expect(first.output).not.toContain('/work');
    expect(JSON.parse(first.output).files).toEqual(['sub/a.v']);
  });

  it('takes parameters, defines, start and top', async () => {
    const text = [
      'module counter #(parameter W = 2) (input clk, output reg [W-1:0] n);',
      '  always @(posedge clk) n <= n + `STEP;',
      'endmodule',
      'module other(input clk); endmodule',
    ].join('\n');
    const report = await json(
      { 'a.v': text },
      'a.v',
      '--set',
      'W=3',
      '--define',
      'STEP=2',
      '--start',
      '1',
      '--top',
      'counter',
    );
    expect(report).toMatchObject({
      top: 'counter',
      parameters: { W: '3' },
      registers: [{ name: 'n[2:0]', start: '111', startFrom: 'assumed' }],
    });
    expect(report.counts[0].values).toEqual(['7', '1', '3', '5']);
  });

  it('finds includes beside the file, in --include folders, and within includes', async () => {
    const files = {
      'src/a.v':
        '`include "one.vh"\nmodule a(input clk, output reg q); initial q = 0; always @(posedge clk) q <= `TWO; endmodule\n',
      'src/one.vh': '`include "two.vh"\n',
      'inc/two.vh': '`define TWO ~q\n',
    };
    const report = await json(files, 'src/a.v', '--include', 'inc');
    expect(report.findings).toEqual([]);
    expect(report.registers).toMatchObject([{ name: 'q', ratio: '2/1' }]);
    const without = await json(files, 'src/a.v');
    expect(without.findings[0]).toMatchObject({ id: 'unresolved-name' });
  });

  it('reads the nearest project file at or above the first file, unless told otherwise', async () => {
    const files = {
      'deep/down/a.v': toggle,
      'deep/foretick.json': '{"clocks": {"clk": {"periodPs": 8000}}}',
      'foretick.json': '{"clocks": {"clk": {"periodPs": 4000}}}',
    };
    const period = async (...args: string[]) => (await json(files, 'deep/down/a.v', ...args)).drive.clocks[0].period;
    expect([await period(), await period('--project', 'foretick.json'), await period('--project', 'none')]).toEqual([
      8000, 4000, 20_000,
    ]);
  });

  it('takes modules that are not given from the libraries of the project', async () => {
    const files = {
      'a.v': 'module a(input clk, output q); half u(.clk(clk), .q(q)); endmodule\n',
      'cells/half.v': 'module half(input clk, output reg q); initial q = 0; always @(posedge clk) q <= ~q; endmodule\n',
      'foretick.json': '{"libraries": ["cells"]}',
    };
    const report = await json(files, 'a.v');
    expect(report).toMatchObject({
      top: 'a',
      files: ['a.v', 'cells/half.v'],
      registers: [{ name: 'u.q' }],
      findings: [],
    });
  });

  it('survives what is no Verilog at all', async () => {
    const noise = `${'\u0000\uFFFD'.repeat(50)}module`;
    const ending = await run({ 'a.v': noise, 'empty.v': '' }, 'report', 'a.v', '--format', 'json');
    expect(ending).toMatchObject({ exitCode: 1, complaint: '' });
    expect((await run({ 'empty.v': '' }, 'report', 'empty.v')).output).toContain('no module to study');
  });
});

describe('the account command', () => {
  it('tells the causes, as text and as data', async () => {
    const args = ['account', 'a.v', '--signal', 'q[1]', '--at', '42000'];
    const text = await run({ 'a.v': ripple }, ...args);
    expect(text.output.split('\n')).toEqual([
      'q[1] rose at 42 ns because its clock q[0] fell at 41 ns (line 4)',
      '  it sampled 1, with q[1] at 0',
      '  q[0] fell at 41 ns because its clock clk fell at 40 ns (line 3)',
      '  clk fell at 40 ns, as driven',
      '  in all 2 ns from clk: q[0] 1 ns and q[1] 1 ns',
      '',
    ]);
    const { accounts } = JSON.parse((await run({ 'a.v': ripple }, ...args, '--format', 'json')).output);
    expect(accounts).toMatchObject([{ signal: 'q[1]', at: 42_000, outcome: 'changed', from: '0', to: '1' }]);
    expect(accounts[0].steps.map(({ at, what }: { at: number; what: string }) => [what, at])).toEqual([
      ['sampled', 42_000],
      ['sampled', 41_000],
      ['drive', 40_000],
    ]);
  });

  it('of a vector tells of the bits at which something happened', async () => {
    const { output } = await run({ 'a.v': ripple }, 'account', 'a.v', '--signal', 'q', '--at', '42000');
    expect(output).toMatch(/^q\[1\] rose/);
    expect(output).not.toContain('q[0] is');
  });
});

describe('the preview command', () => {
  it('without a file shows the example of the package', async () => {
    const ending = await run(
      { 'package/examples/ripple-counter.v': ripple, 'foretick.json': '{"top": "none"}' },
      'preview',
      '--format',
      'text',
    );
    expect(ending).toMatchObject({ exitCode: 0, complaint: '' });
    expect(ending.output).toContain('counts up, modulo 4');
  });

  it('writes a page or a picture and prints where', async () => {
    const files = { 'a.v': ripple, 'package/dist/preview-page.js': '/**/', 'package/dist/preview-page.css': '/**/' };
    const page = await run(files, 'preview', 'a.v', '--format', 'html', '--out', 'pages');
    expect(page).toMatchObject({ exitCode: 0, complaint: '', output: 'pages/preview.html\n' });
    expect(page.written['pages/preview.html']).toContain('<!doctype html>');
    const picture = await run(files, 'preview', 'a.v', '--format', 'svg');
    expect(Object.keys(picture.written)).toEqual(['foretick-preview/preview.svg']);
    const both = await run(files, 'preview', 'a.v');
    expect(both.output).toMatch(/page: foretick-preview\/preview\.html\n$/);
  });

  it("gives the panel's data as JSON", async () => {
    const { output } = await run({ 'a.v': ripple }, 'preview', 'a.v', '--format', 'json');
    const data = JSON.parse(output);
    expect(data).toMatchObject({ top: 'two', groups: [{ name: 'clk' }, { name: null }], readings: [{ name: 'q' }] });
    expect(data.traces.map(({ name }: { name: string }) => name)).toEqual(['clk', 'q[0]', 'q[1]']);
  });

  it('of what has no top says why', async () => {
    const { exitCode, output } = await run({ 'a.v': toggle }, 'preview', 'a.v', '--top', 'none', '--format', 'json');
    expect(exitCode).toBe(1);
    expect(JSON.parse(output)).toMatchObject({ top: null, traces: [], findings: [{ id: 'unresolved-name' }] });
  });
});

describe('compare', () => {
  const faster = toggle.replace('q <= ~q', 'q <= 1');

  it('tells two files apart, or two reports, and fails only on findings that are new', async () => {
    const files = { 'a.v': toggle, 'b.v': faster, 'c.v': ripple };
    const same = await run(files, 'compare', 'a.v', 'a.v');
    expect([same.exitCode, same.output]).toEqual([0, 'no difference\n  from a.v\n  to   a.v\n']);
    expect((await run(files, 'compare', 'a.v', 'b.v')).output).toContain('altered  q');
    expect((await run(files, 'compare', 'a.v', 'c.v', '--fail-on', 'warning')).exitCode).toBe(1);
    expect((await run(files, 'compare', 'c.v', 'c.v', '--fail-on', 'warning')).exitCode).toBe(0);
    const { output: report } = await run(files, 'report', 'a.v', '--format', 'json');
    const { output } = await run({ ...files, 'a.json': report }, 'compare', 'a.json', 'b.v', '--format', 'json');
    expect(JSON.parse(output).changes).toContainEqual({
      kind: 'register',
      what: 'altered',
      name: 'q',
      fields: expect.arrayContaining([{ field: 'ratio', from: '"2/1"', to: 'null' }]),
    });
  });

  it('refuses what is no report', async () => {
    const files = { 'a.v': toggle, 'a.json': '{"top": 3}', 'b.json': 'no' };
    expect((await run(files, 'compare', 'a.json', 'a.v')).complaint).toContain('a.json is no report of this program');
    expect((await run(files, 'compare', 'b.json', 'a.v')).complaint).toContain('b.json is no JSON');
  });
});

describe('cure', () => {
  const at = ['--finding', 'ripple-chain', '--at', 'a.v:4'];

  it('tells what it tried, and writes on request', async () => {
    const { exitCode, output, written } = await run({ 'a.v': ripple }, 'cure', 'a.v', ...at);
    expect([exitCode, written]).toEqual([0, {}]);
    expect(output).toContain('tried: ripple-chain is gone');
    expect(output).toContain('would be written with --write');
    const second = await run({ 'a.v': ripple }, 'cure', 'a.v', ...at, '--write');
    expect(Object.values(second.written)).toEqual([
      expect.stringContaining('always @(negedge clk) if (q[0]) q[1] <= ~q[1];'),
    ]);
  });

  it('asks before it writes what changes who samples what', async () => {
    const slow = `module m(input clk, d, output reg q);
  reg slow = 0, fresh = 0;
  always @(posedge clk) begin slow <= ~slow; fresh <= d; end
  always @(posedge slow) q <= fresh;
endmodule
`;
    const place = ['cure', 'a.v', '--finding', 'derived-clock', '--at', 'a.v:4'];
    const asked = await run({ 'a.v': slow }, ...place, '--write');
    expect([asked.exitCode, asked.written]).toEqual([1, {}]);
    expect(asked.output).toContain(
      'asks: q samples the value of fresh from before the edge of clk instead of after it',
    );
    expect(asked.output).toContain('not written: add --agree if what it asks is wanted');
    const agreed = await run({ 'a.v': slow }, ...place, '--write', '--agree');
    expect([agreed.exitCode, Object.keys(agreed.written)]).toEqual([0, ['a.v']]);
  });

  it('names the other ways, and takes the one that is picked', async () => {
    const decode = `module m(input clk, output y);
  reg [1:0] n = 0;
  always @(posedge clk) n <= n + 1;
  assign y = n == 2;
endmodule
`;
    const place = ['cure', 'a.v', '--finding', 'decoded-glitch', '--at', 'a.v:4'];
    const first = await run({ 'a.v': decode }, ...place);
    expect(first.output).toContain('--pick 2: register y at clk: one period later');
    const second = await run({ 'a.v': decode }, ...place, '--pick', '2', '--write');
    expect(second.written['a.v']).toContain('always @(posedge clk) y_held <= n == 2;');
    const third = await run({ 'a.v': decode }, ...place, '--pick', '3');
    expect([third.exitCode, third.complaint]).toEqual([2, 'foretick: --pick 3: there are 2 cures\n']);
  });

  it('ends with 1 where it knows none, and refuses what is not there', async () => {
    const bus =
      'module m(input a, b, input [1:0] d, output reg [1:0] q); reg [1:0] s; always @(posedge a) s <= d;\nalways @(posedge b) q <= s; endmodule';
    const none = await run({ 'a.v': bus }, 'cure', 'a.v', '--finding', 'bus-crossing', '--at', 'a.v:2');
    expect([none.exitCode, none.output]).toEqual([1, expect.stringContaining('no cure for bus-crossing at a.v:2')]);
    const lost = await run({ 'a.v': bus }, 'cure', 'a.v', ...at);
    expect([lost.exitCode, lost.complaint]).toEqual([2, 'foretick: no ripple-chain stands at a.v:4\n']);
  });
});

describe('a value change dump that the project names', () => {
  it('is looked for beside the project file, and drives', async () => {
    const dump =
      '$timescale 1 ns $end $scope module t $end $var wire 1 ! clk $end $upscope $end $enddefinitions $end\n';
    const beats = Array.from({ length: 8 }, (_, index) => `#${4 * (index + 1)} ${(index + 1) % 2}!`).join('\n');
    const files = {
      'rtl/a.v': toggle,
      'foretick.json': '{"dump": {"file": "runs/../runs/today.vcd"}}',
      'runs/today.vcd': `${dump}#0 0!\n${beats}\n`,
    };
    const report = await json(files, 'rtl/a.v');
    expect(report.drive.clocks).toMatchObject([{ signal: 'clk', period: 8_000, high: 4_000, source: 'given' }]);
    expect(report.assumptions[0].reason).toBe('clk moves as in runs/../runs/today.vcd, scope t');
  });
});

// A value change dump drives a design: what of IEEE 1364-2005 clause 18 is read, which scope is taken, what is said where
// the dump cannot be followed. The dumps are written here; times are placed by hand.
import { describe, expect, it } from 'vitest';
import { writeText } from '../../server/src/report/write-text';
import { reportOf, studyOf, toEnd, wavesOf } from '../tools/report-of';

const counter = [
  {
    path: 'counter.v',
    text: `module counter(input clk, rst, en, input [3:0] step, output reg [7:0] n);
  always @(posedge clk or posedge rst) if (rst) n <= 0; else if (en) n <= n + step;
endmodule
`,
  },
];

const header = `$date some day $end
$version a bench $end
$timescale 1 ns $end
$scope module tb $end
$var reg 1 ! clk $end
$var reg 1 " en $end
$scope module dut $end
$var wire 1 ! clk $end
$var wire 1 # rst $end
$var wire 1 " en $end
$var wire 4 $ step [3:0] $end
$var reg 8 % n [7:0] $end
$upscope $end
$upscope $end
$enddefinitions $end
`;

const clocked = Array.from({ length: 12 }, (_, half) => `#${5 * (half + 1)}\n${half % 2 === 0 ? 1 : 0}!`);

/** The clock rises every 10 ns from 5 ns on; what else happens is given by time, ns. */
function dumpOf(more: Readonly<Record<number, string>>, start = '0!\n1#\n0"\nb11 $\nb0 %'): string {
  const steps = clocked.map((step) => ({ at: Number(/\d+/.exec(step)), text: step }));
  const others = Object.entries(more).map(([at, text]) => ({ at: Number(at), text: `#${at}\n${text}` }));
  const inOrder = [...steps, ...others].sort((left, right) => left.at - right.at);
  return `${header}#0\n$dumpvars\n${start}\n$end\n${inOrder.map(({ text }) => text).join('\n')}\n#60\n`;
}

const driven = (text: string, more: object = {}, scope?: string) => ({
  project: JSON.stringify({ dump: { file: 'run.vcd', ...(scope === undefined ? {} : { scope }) }, ...more }),
  provided: [{ path: 'run.vcd', text }],
});

const usual = dumpOf({ 12: '0#', 22: '1"', 42: 'b101 $' });

/** The sentences about a signal, or about the dump. */
async function said(text: string, about: string, more: object = {}, scope?: string): Promise<readonly string[]> {
  const report = await reportOf(counter, driven(text, more, scope));
  return report.assumptions.filter((each) => each.about === about).map(({ reason }) => reason);
}

describe('a dump as drive', () => {
  it('drives clock, reset and inputs as it has them', async () => {
    const report = await reportOf(counter, driven(usual));
    expect(report.drive.clocks).toMatchObject([
      { signal: 'clk', period: 10_000, high: 5_000, phase: 5_000, source: 'given' },
    ]);
    expect(report.drive.resets).toMatchObject([{ signal: 'rst', active: 'high', source: 'given' }]);
    const wave = await wavesOf(counter, 60_000, driven(usual));
    expect(wave('rst').changes).toEqual([{ at: 12_000, value: '0' }]);
    expect(wave('step').changes).toEqual([{ at: 42_000, value: '0101' }]);
    // Enabled from 22 ns on: it samples at 25, 35, 45 and 55 ns, with 3, 3, 5, 5.
    expect(wave('n').changes.map(({ at, value }) => [at, Number.parseInt(value, 2)])).toEqual([
      [26_000, 3],
      [36_000, 6],
      [46_000, 11],
      [56_000, 16],
    ]);
  });

  it('says which file and scope it comes from: the one with most ports of the design', async () => {
    expect(await said(usual, 'en')).toEqual(['en moves as in run.vcd, scope tb.dut']);
    expect(writeText(await reportOf(counter, driven(usual)))).toContain('clk moves as in run.vcd, scope tb.dut');
  });

  it('follows the scope that is named, and leaves to the rest what that lacks', async () => {
    const report = await reportOf(counter, driven(usual, {}, 'tb'));
    expect(report.drive.clocks[0].source).toBe('given');
    expect(report.drive.resets[0].source).toBe('inferred');
  });

  it('goes before a test bench, and after what foretick.json says of one signal', async () => {
    const bench = {
      path: 'tb.v',
      text: `module tb; reg clk = 0, rst = 0, en = 0; wire [7:0] n;
  counter dut(clk, rst, en, 4'd1, n);
  always #50 clk = ~clk;
endmodule
`,
    };
    const options = { ...driven(usual, { inputs: { step: 1 } }), top: 'counter' };
    const report = await reportOf([...counter, bench], options);
    expect(report.drive.clocks[0].period).toBe(10_000);
    expect(report.drive.inputs.find(({ signal }) => signal === 'step')).toMatchObject({ value: '0001', moves: null });
  });

  it('that resets again halfway drives the reset as an input that moves', async () => {
    const wave = await wavesOf(counter, 60_000, driven(dumpOf({ 12: '0#', 22: '1"', 37: '1#', 39: '0#' })));
    expect(wave('n').changes.map(({ at, value }) => [at, Number.parseInt(value, 2)])).toEqual([
      [26_000, 3],
      [36_000, 6],
      [38_000, 0],
      [46_000, 3],
      [56_000, 6],
    ]);
  });

  it('written by this program is read back as the same run', async () => {
    const inputs = { en: { pulse: { atPs: 35_000, widthPs: 40_000 } }, step: 3 };
    const options = { project: JSON.stringify({ inputs }) };
    const written = toEnd((await studyOf(counter, options)).dump());
    const [first, second] = [
      await wavesOf(counter, 150_000, options),
      await wavesOf(counter, 150_000, driven(written)),
    ];
    for (const name of ['clk', 'rst', 'en', 'step', 'n']) expect(second(name).changes).toEqual(first(name).changes);
    expect(first('n').changes.length).toBeGreaterThan(1);
  });
});

describe('the form of clause 18', () => {
  const change = async (text: string, name: string) => (await wavesOf(counter, 60_000, driven(text)))(name);

  it('fills what a vector leaves out by its first digit (table 18-1)', async () => {
    const wave = await change(dumpOf({ 12: '0#', 22: 'bx10 $', 32: 'bz $', 42: 'b1 $' }), 'step');
    expect(wave.changes.map(({ value }) => value)).toEqual(['xx10', 'zzzz', '0001']);
  });

  it('reads 1, 10 and 100 of every unit, rounded to whole ps', async () => {
    for (const [scale, rise] of [
      ['10 ps', 50],
      ['100ps', 500],
      ['1 us', 5_000_000],
    ] as const) {
      const report = await reportOf(counter, driven(usual.replace('1 ns', scale)));
      expect(report.drive.clocks[0].phase).toBe(rise);
    }
    // 25 times 100 fs is two ps and a half.
    const fine = dumpOf({ 12: '0#', 25: '1"' }).replace('1 ns', '100 fs');
    expect((await wavesOf(counter, 10, driven(fine)))('en').changes).toEqual([{ at: 3, value: '1' }]);
  });

  it('puts bits together that are dumped one by one', async () => {
    const bits = [3, 2, 1, 0].map((bit) => `$var wire 1 s${bit} step [${bit}] $end`).join('\n');
    const text = dumpOf({ 12: '0#', 42: '1s3\n0s0' }, '0!\n1#\n0"\n0s3\n0s2\n1s1\n1s0\nb0 %').replace(
      '$var wire 4 $ step [3:0] $end',
      bits,
    );
    expect((await change(text, 'step')).at(20_000)).toBe('0011');
    expect((await change(text, 'step')).changes).toEqual([{ at: 42_000, value: '1010' }]);
  });

  it('passes comments, reals, checkpoints and variables of no interest by', async () => {
    const more = { 12: '0#', 13: '$comment 1" is no change $end', 14: 'r1.5 &\n1~', 15: '$dumpall 0" $end', 22: '1"' };
    expect((await change(dumpOf(more), 'en')).changes).toEqual([{ at: 22_000, value: '1' }]);
  });

  it('is x where a variable has no value at first', async () => {
    const wave = await change(dumpOf({ 12: '0#\n0"' }, '0!\n1#\nb11 $'), 'en');
    expect([wave.at(0), wave.at(13_000)]).toEqual(['x', '0']);
  });
});

describe('what cannot be followed is said', () => {
  it('a file that is not there', async () => {
    const options = { project: JSON.stringify({ dump: { file: 'lost.vcd' } }) };
    const report = await reportOf(counter, options);
    expect(report.assumptions.find(({ about }) => about === 'dump')?.reason).toBe(
      'dump in foretick.json names lost.vcd, which is not there: not followed',
    );
    expect(toEnd((await studyOf(counter, options)).wanted()).data).toEqual(['lost.vcd']);
  });

  it('a scope that it lacks, and a dump of another design', async () => {
    expect(await said(usual, 'dump', {}, 'tb.other')).toEqual(['run.vcd has no scope tb.other: not followed']);
    const other = usual.replace(/clk|rst|en|step/g, (name) => `other_${name}`).replaceAll('$other_end', '$end');
    const stranger = other.replaceAll('$other_enddefinitions', '$enddefinitions').replace(' n [7:0]', ' m [7:0]');
    expect(await said(stranger, 'dump')).toEqual([
      'run.vcd has none of the inputs of this design in any scope: not followed',
    ]);
  });

  it('a port of another width', async () => {
    const [sentence] = await said(usual.replace('$var wire 4 $ step [3:0]', '$var wire 6 $ step [5:0]'), 'step');
    expect(sentence).toMatch(/^step in run\.vcd, scope tb\.dut is no drive of that kind/);
  });

  it('a line that is no value change: what stands before it holds', async () => {
    const broken = usual.replace('#42', 'bananas');
    expect(await said(broken, 'dump')).toEqual([
      expect.stringMatching(/^line \d+ of run\.vcd is not as IEEE 1364-2005 clause 18 has it: read up to there$/),
    ]);
    expect((await wavesOf(counter, 30_000, driven(broken)))('en').changes).toEqual([{ at: 22_000, value: '1' }]);
  });

  it('times that go back, an extended dump, no dump at all, bytes of any kind', async () => {
    expect(await said(`${usual}#3\n0"\n`, 'dump')).toHaveLength(1);
    expect(await said(usual.replace('$var wire 1 #', '$var port 1 #'), 'dump')).toEqual([
      'run.vcd is an extended value change dump, which says what each side drives: not followed; a four-state dump is read',
    ]);
    for (const text of ['', 'what', '$scope', '$var wire $end', '\u0000\uffff$end', '$timescale 3 ns $end']) {
      expect(await said(text, 'dump')).toHaveLength(1);
    }
  });

  it('more changes than the limit: followed up to there', async () => {
    const options = { ...driven(usual), limits: { changes: 13 } };
    const report = await reportOf(counter, options);
    // Four values at first, nine changes up to and with the one at 35 ns.
    expect(report.assumptions.find(({ about }) => about === 'dump')?.reason).toBe(
      'run.vcd has more changes of inputs than the limit changes (13): followed up to 35 ns',
    );
    expect(report.drive.inputs.find(({ signal }) => signal === 'step')?.moves).toBe(null);
  });
});

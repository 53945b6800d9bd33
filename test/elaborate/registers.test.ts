// What becomes a register, of which clock, with which controls: the rules of register inference of IEEE Std 1364.1-2002
// (SYN-1 to SYN-9, quoted from memory; 5.2.2), and the project's definitions 11 to 13.
import { describe, expect, test } from 'vitest';
import { toBinary } from '../../server/src/netlist/four-state';
import { netlistOf } from '../tools/elaborated';
import { clockingText, driverOf, driversOf, nodeText, registerNames, registerOf } from './netlist-text';

const reasons = (complaints: readonly { readonly id: string; readonly reason: string }[]) =>
  complaints.map(({ id, reason }) => `${id} ${reason}`);

describe('edges and asynchronous controls', () => {
  test.each([
    ['posedge', 'rising'],
    ['negedge', 'falling'],
  ])('SYN-1, %s alone', async (written, edge) => {
    const { netlist, complaints } = await netlistOf(
      `module m(input c, d, output reg q); always @(${written} c) q <= d; endmodule`,
    );
    expect(complaints).toEqual([]);
    expect(clockingText(netlist, registerOf(netlist, 'q'))).toBe(`${edge} c`);
    expect(nodeText(netlist, registerOf(netlist, 'q').data)).toBe('d');
    expect(netlist.processes[0].kind).toBe('clocked');
  });

  test('SYN-2, the edge not tested is the clock', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, r, s, d, output reg q);
      always @(posedge r or posedge c or negedge s) if (r) q <= 0; else if (!s) q <= 1; else q <= d; endmodule`);
    expect(complaints).toEqual([]);
    expect(clockingText(netlist, registerOf(netlist, 'q'))).toBe('rising c, high r 0, low s 1');
  });

  test.each([
    ['posedge r', 'r', 'high r'],
    ['posedge r', 'r == 1', 'high r'],
    ['posedge r', "r == 1'b1", 'high r'],
    ['posedge r', "1'b1 == r", 'high r'],
    ['negedge r', '!r', 'low r'],
    ['negedge r', '~r', 'low r'],
    ['negedge r', 'r == 0', 'low r'],
    ['negedge r', "r == 1'b0", 'low r'],
    ['posedge v[2]', 'v[2]', 'high v[2]'],
    ['negedge v[2]', '!v[2]', 'low v[2]'],
    ['posedge r', 'alias', 'high r'],
    ['posedge r', '!inverse', 'high r'],
    ['negedge r', 'inverse', 'low r'],
    ['posedge alias', 'r', 'high alias'],
    ['negedge inverse', 'r', 'low inverse'],
  ])('an accepted test: %s, if (%s)', async (edge, condition, control) => {
    const { netlist, complaints } = await netlistOf(`module m(input c, r, d, input [3:0] v, output reg q);
      wire alias = r; wire inverse; not (inverse, r);
      always @(posedge c or ${edge}) if (${condition}) q <= 0; else q <= d; endmodule`);
    expect(complaints).toEqual([]);
    expect(clockingText(netlist, registerOf(netlist, 'q'))).toBe(`rising c, ${control} 0`);
  });

  test.each(['r || s', 'r | s', '|{r, s}'])('an OR of tests: %s', async (condition) => {
    const { netlist, complaints } = await netlistOf(`module m(input c, r, s, d, output reg q);
      always @(posedge c, posedge r, posedge s) if (${condition}) q <= 0; else q <= d; endmodule`);
    expect(complaints).toEqual([]);
    expect(clockingText(netlist, registerOf(netlist, 'q'))).toBe('rising c, high r 0, high s 0');
  });

  test.each([
    [
      'SYN-3, polarity against the edge',
      'posedge c or negedge r',
      'if (r) q <= 0; else q <= d;',
      'clock-test-against-edge',
    ],
    ['polarity, the other way', 'posedge c or posedge r', 'if (!r) q <= 0; else q <= d;', 'clock-test-against-edge'],
    ['SYN-7, edges and levels', 'posedge c or r', 'if (r) q <= 0; else q <= d;', 'clock-edges-mixed-with-levels'],
    ['more than one untested', 'posedge c or posedge r', 'q <= d;', 'clock-several-untested'],
    ['none untested', 'posedge c or posedge r', 'if (r) q <= 0; else if (c) q <= d;', 'clock-none-untested'],
    [
      'a test that is more than one',
      'posedge c or posedge r',
      'if (r && d) q <= 0; else q <= d;',
      'clock-test-not-accepted',
    ],
    ['a test of something else', 'posedge c or posedge r', 'if (s) q <= 0; else q <= d;', 'clock-test-not-accepted'],
    ['both edges of one clock', 'posedge c or negedge c', 'q <= d;', 'clock-both-edges'],
    ['both edges through an inverse', 'posedge c or posedge n', 'q <= d;', 'clock-both-edges'],
    [
      'a statement beside the chain',
      'posedge c or posedge r',
      'begin if (r) q <= 0; else q <= d; q <= s; end',
      'clock-several-untested',
    ],
    [
      'two chains for one target',
      'posedge c or posedge r',
      'begin if (r) q <= 0; else q <= d; if (r) q <= 1; else q <= s; end',
      'clock-written-beside-chain',
    ],
    ['waiting in the middle', 'posedge c', 'begin q <= d; @(posedge c) q <= s; end', 'construct'],
  ])('no register is guessed: %s', async (_, list, body, reason) => {
    const { netlist, complaints } = await netlistOf(`module m(input c, r, s, d, output reg q); wire n = ~c;
      always @(${list}) ${body} endmodule`);
    expect(reasons(complaints)).toContain(`unsupported ${reason}`);
    expect(netlist.registers).toEqual([]);
    expect(driverOf(netlist, 'q')).toMatch(/hole/);
    expect(netlist.processes.filter(({ flavor }) => flavor === 'always')[0].kind).toBe('unreadable');
  });

  test('SYN-4, a reset tested on one edge only is data', async () => {
    const { netlist } = await netlistOf(
      'module m(input c, r, d, output reg q); always @(posedge c) if (r) q <= 0; else q <= d; endmodule',
    );
    expect(clockingText(netlist, registerOf(netlist, 'q'))).toBe('rising c');
    expect(nodeText(netlist, registerOf(netlist, 'q').data)).toBe('mux(r, 0, d)');
  });

  test('an asynchronous load reads its data', async () => {
    const { netlist } = await netlistOf(`module m(input c, l, input [1:0] p, output reg [1:0] q);
      always @(posedge c or posedge l) if (l) q <= p; else q <= q + 1; endmodule`);
    expect(clockingText(netlist, registerOf(netlist, 'q[1:0]'))).toBe('rising c, high l p[1:0]');
  });

  test('only the least significant bit of a vector makes an edge (EDGE-2, 9.7.2, memory)', async () => {
    const { netlist } = await netlistOf(
      'module m(input [3:0] v, input d, output reg q); always @(posedge v) q <= d; endmodule',
    );
    expect(clockingText(netlist, registerOf(netlist, 'q'))).toBe('rising v[0]');
  });

  test('every chain of a process for itself', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, r, a, b, output reg p, q);
      always @(posedge c or posedge r) begin if (r) p <= 0; else p <= a; if (r) q <= 1; else q <= b; end endmodule`);
    expect(complaints).toEqual([]);
    expect(netlist.registers.map((register) => clockingText(netlist, register))).toEqual([
      'rising c, high r 0',
      'rising c, high r 1',
    ]);
  });

  test('definition 13: without a branch in the reset block the reset is the enable', async () => {
    const { netlist, elaboration, complaints } = await netlistOf(`module m(input c, rn, d, output reg p, q);
      always @(posedge c or negedge rn) if (!rn) p <= 0; else begin p <= d; q <= d; end endmodule`);
    expect(complaints).toEqual([]);
    expect(clockingText(netlist, registerOf(netlist, 'p'))).toBe('rising c, low rn 0');
    expect(clockingText(netlist, registerOf(netlist, 'q'))).toBe('rising c');
    expect(nodeText(netlist, registerOf(netlist, 'q').data)).toBe('mux(rn, d, R q)');
    const [fact, ...others] = elaboration.resetsInEnable;
    expect(others).toEqual([]);
    expect(fact).toMatchObject({ register: registerOf(netlist, 'q').id, active: 'low' });
  });

  test('a lower control waits while a higher one holds', async () => {
    const { netlist } = await netlistOf(`module m(input c, r, s, d, output reg p, q);
      always @(posedge c or posedge r or posedge s) if (r) p <= 0; else if (s) q <= 1; else begin p <= d; q <= d; end endmodule`);
    expect(clockingText(netlist, registerOf(netlist, 'p'))).toBe('rising c, high r 0');
    expect(nodeText(netlist, registerOf(netlist, 'p').data)).toBe('mux(s, R p, d)');
    expect(clockingText(netlist, registerOf(netlist, 'q'))).toBe('rising c, high s mux(r, R q, 1)');
    expect(nodeText(netlist, registerOf(netlist, 'q').data)).toBe('mux(r, R q, d)');
  });
});

describe('slices (definition 11)', () => {
  test('a bit clocked by its neighbor', async () => {
    const { netlist } = await netlistOf(`module m(input c, output reg [1:0] q); initial q = 2'b10;
      always @(negedge c) q[0] <= ~q[0]; always @(negedge q[0]) q[1] <= ~q[1]; endmodule`);
    expect(registerNames(netlist)).toEqual(['q[0]', 'q[1]']);
    expect(clockingText(netlist, registerOf(netlist, 'q[1]'))).toBe('falling q[0]');
    expect(toBinary(registerOf(netlist, 'q[1]').initial)).toBe('1');
    expect(driversOf(netlist, 'q')).toEqual(['R q[1]', 'R q[0]']);
  });

  test('controls cut, enables do not', async () => {
    const { netlist } = await netlistOf(`module m(input c, r, e, input [7:0] d, output reg [7:0] q);
      always @(posedge c or posedge r) if (r) q[3:0] <= 0; else begin q[5:0] <= d[5:0]; if (e) q[7:6] <= d[7:6]; end endmodule`);
    expect(registerNames(netlist)).toEqual(['q[3:0]', 'q[7:4]']);
    const upper = registerOf(netlist, 'q[7:4]');
    expect(nodeText(netlist, upper.data)).toBe(
      '{mux(r, R q[7:4]<3:2>, mux(e, d[7:6], R q[7:4]<3:2>)), mux(r, R q[7:4]<1:0>, d[5:4])}',
    );
    expect(upper.enables.map(({ low, width, text }) => ({ low, width, text }))).toEqual([
      { low: 2, width: 2, text: 'e' },
    ]);
  });

  test('ascending and negative indices keep their names', async () => {
    const { netlist } = await netlistOf(`module m(input c, input d, output reg [0:3] q, output reg [-1:-2] n);
      always @(posedge c) begin q[0] <= d; q[1:3] <= q[0:2]; n[-1] <= d; end always @(negedge c) n[-2] <= d; endmodule`);
    expect(registerNames(netlist)).toEqual(['q[0:3]', 'n[-1]', 'n[-2]']);
    expect(nodeText(netlist, registerOf(netlist, 'q[0:3]').data)).toBe('{d, q[0:2]}');
  });

  test('loop variables and temporaries are none', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, input [3:0] d, output reg [3:0] q);
      integer i; reg [3:0] t;
      always @(posedge c) begin t = d; for (i = 0; i < 4; i = i + 1) q[i] <= t[3 - i]; end endmodule`);
    expect(complaints).toEqual([]);
    expect(registerNames(netlist)).toEqual(['q[3:0]']);
    expect(nodeText(netlist, registerOf(netlist, 'q[3:0]').data)).toBe('{d[0], d[1], d[2], d[3]}');
  });

  test.each([
    ['read before it is written', 'q <= t; t = d;'],
    ['written on some paths only', 'if (e) t = d; q <= t;'],
  ])('a blocking variable is one when %s', async (_, body) => {
    const { netlist } = await netlistOf(
      `module m(input c, e, d, output reg q); reg t; always @(posedge c) begin ${body} end endmodule`,
    );
    expect(registerNames(netlist).sort()).toEqual(['q', 't']);
  });

  test('a blocking variable is one when another process reads it', async () => {
    const { netlist } = await netlistOf(`module m(input c, d, output reg q, output y); reg t; assign y = t;
      always @(posedge c) begin t = d; q <= t; end endmodule`);
    expect(registerNames(netlist)).toEqual(['q', 't']);
  });

  test('a variable that nobody reads is listed', async () => {
    const { netlist } = await netlistOf('module m(input c, d); reg flag; always @(posedge c) flag = d; endmodule');
    expect(registerNames(netlist)).toEqual(['flag']);
  });

  test('two processes may use one loop variable', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, input [3:0] d, output reg [3:0] p, q); integer i;
      always @(posedge c) for (i = 0; i < 4; i = i + 1) p[i] <= d[i];
      always @* for (i = 0; i < 4; i = i + 1) q[i] = d[3 - i]; endmodule`);
    expect(complaints).toEqual([]);
    expect(registerNames(netlist)).toEqual(['p[3:0]']);
    expect(netlist.sharedDrivers).toEqual([]);
  });
});

describe('order of assignments', () => {
  test('NBA-1, a swap (9.2.2)', async () => {
    const { netlist } = await netlistOf(`module m(input c, output reg a, b); initial begin a = 0; b = 1; end
      always @(posedge c) begin a <= b; b <= a; end endmodule`);
    expect(nodeText(netlist, registerOf(netlist, 'a').data)).toBe('b');
    expect(nodeText(netlist, registerOf(netlist, 'b').data)).toBe('a');
  });

  test('NBA-6, the later of two nonblocking start values (9.2.2)', async () => {
    const { netlist } = await netlistOf(`module m(input c, d, output reg q);
      initial begin q <= 0; q <= 1; end always @(posedge c) q <= d; endmodule`);
    expect(toBinary(registerOf(netlist, 'q').initial)).toBe('1');
  });

  test.each([
    ['nonblocking', 'p <= d; q <= p;', 'p'],
    ['blocking, forward', 'p = d; q = p;', 'd'],
    ['blocking, backward', 'q = p; p = d;', 'p'],
  ])('NBA-7, a shift of two: %s (9.2, memory)', async (_, body, second) => {
    const { netlist } = await netlistOf(
      `module m(input c, d, output reg p, q); always @(posedge c) begin ${body} end endmodule`,
    );
    expect(nodeText(netlist, registerOf(netlist, 'p').data)).toBe('d');
    expect(nodeText(netlist, registerOf(netlist, 'q').data)).toBe(second);
  });

  test('the last assignment wins, the condition notwithstanding', async () => {
    const { netlist } = await netlistOf(`module m(input c, e, d, output reg q);
      always @(posedge c) begin q <= 0; if (e) q <= d; end endmodule`);
    expect(nodeText(netlist, registerOf(netlist, 'q').data)).toBe('mux(e, d, 0)');
    expect(registerOf(netlist, 'q').enables).toEqual([]);
  });

  test('a nonblocking assignment on some paths stands over a blocking one', async () => {
    const { netlist } = await netlistOf(`module m(input c, e, a, b, output reg q);
      always @(posedge c) begin if (e) q <= a; q = b; end endmodule`);
    expect(nodeText(netlist, registerOf(netlist, 'q').data)).toBe('mux(e, a, b)');
  });
});

describe('enables as written', () => {
  test('conditions in a row', async () => {
    const { netlist } = await netlistOf(`module m(input c, load, en, stop, input [3:0] d, output reg [3:0] q);
      always @(posedge c) if (load) q <= d; else if (en && !stop) q <= q + 1; endmodule`);
    const { enables } = registerOf(netlist, 'q[3:0]');
    expect(enables.map(({ text, condition }) => `${text}: ${nodeText(netlist, condition)}`)).toEqual([
      'load: load',
      '!(load) && en && !stop: and(not(load), and(en, not(stop)))',
    ]);
  });

  test('brackets where they are needed, labels of a case', async () => {
    const { netlist } = await netlistOf(`module m(input c, a, b, input [1:0] s, d, output reg [1:0] q, output reg p);
      always @(posedge c) begin if (a || b) if (a) q <= d; case (s) 0, 1: p <= a; 2: ; default: p <= b; endcase end endmodule`);
    expect(registerOf(netlist, 'q[1:0]').enables.map(({ text }) => text)).toEqual(['(a || b) && a']);
    expect(registerOf(netlist, 'p').enables.map(({ text }) => text)).toEqual([
      's == 0 || s == 1',
      '!(s == 0 || s == 1 || s == 2)',
    ]);
  });

  test('always assigned on all paths: none', async () => {
    const { netlist } = await netlistOf(`module m(input c, a, input [1:0] s, output reg q);
      always @(posedge c) case (s) 0: q <= a; 1: q <= 0; 2: q <= 1; 3: q <= ~a; endcase endmodule`);
    expect(registerOf(netlist, 'q').enables).toEqual([]);
    expect(nodeText(netlist, registerOf(netlist, 'q').data)).toBe('select(s[1:0], 00, a, 01, 0, 10, 1, not(a))');
  });
});

describe('start values', () => {
  test.each([
    ['a declaration', "reg [1:0] q = 2'b10;", '10'],
    ['an initial block', "reg [1:0] q; initial q = 2'b01;", '01'],
    ['none', 'reg [1:0] q;', 'xx'],
    ['one bit of two', 'reg [1:0] q; initial q[1] = 0;', '0x'],
    ['a loop', 'reg [1:0] q; integer i; initial for (i = 0; i < 2; i = i + 1) q[i] = i;', '10'],
    ['up to the first delay', 'reg [1:0] q; initial begin q = 0; #10 q = 3; end', '00'],
    ['in a block by name', 'reg [1:0] q; initial begin : b reg [1:0] t; t = 2; q = t; end', '10'],
  ])('%s', async (_, text, expected) => {
    const { netlist } = await netlistOf(
      `module m(input c, input [1:0] d); ${text} always @(posedge c) q <= d; endmodule`,
    );
    expect(toBinary(registerOf(netlist, 'q[1:0]').initial)).toBe(expected);
    expect(registerOf(netlist, 'q[1:0]').initialPlace === null).toBe(expected === 'xx');
  });

  test('bits that nothing else drives keep theirs', async () => {
    const { netlist } = await netlistOf(`module m(input c, d, output [3:0] y); reg [3:0] q; assign y = q;
      initial q = 4'b1010; always @(posedge c) q[1] <= d; endmodule`);
    expect(driversOf(netlist, 'q')).toEqual(['10', 'R q[1]', '0']);
  });

  test('CASE-1, a plain case matches digit by digit (9.5)', async () => {
    const { netlist } =
      await netlistOf(`module m; reg [1:0] select; reg flag, result; initial begin select = 2'b0x; flag = 0;
      case (select) 2'b00: result = 1'b1; 2'b01: result = 1'b1; 2'b0x, 2'b0z: result = flag ? 1'bx : 0;
      2'b10: result = 1'b1; 2'bx0, 2'bz0: result = flag ? 1'bx : 0; default: result = 1'bx; endcase end endmodule`);
    expect(driverOf(netlist, 'result')).toBe('0');
  });

  test.each([
    ["1'bz", '1'],
    ["1'bx", '2'],
    ["1'b0", '3'],
  ])('CASE-2, %s (9.5)', async (value, item) => {
    const { netlist } = await netlistOf(`module m; reg v; integer r; initial begin v = ${value};
      case (v) 1'bz: r = 1; 1'bx: r = 2; default: r = 3; endcase end endmodule`);
    expect(parseInt(driverOf(netlist, 'r'), 2)).toBe(Number(item));
  });
});

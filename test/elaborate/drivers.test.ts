// Nets and what drives them: delays (IEEE 1364-2005 6.1.3, 7.14), resolution (4.6), gates (7), several drivers, words
// that only seem to feed themselves, comparisons that never change.
import { describe, expect, test } from 'vitest';
import { signalSliceName } from '../../server/src/netlist/bit-names';
import { combinationalLoops } from '../../server/src/netlist/loops';
import type { ExplicitDelay, Netlist } from '../../server/src/netlist/netlist';
import { Op } from '../../server/src/netlist/operators';
import { netlistOf } from '../tools/elaborated';
import { driverOf, driversOf, nodeText, registerOf, signalOf } from './netlist-text';

const reasons = (complaints: readonly { readonly id: string; readonly reason: string }[]) =>
  complaints.map(({ id, reason }) => `${id} ${reason}`);

const triple = ({ min, typ, max }: { min: number; typ: number; max: number }) =>
  min === typ && typ === max ? `${typ}` : `${min}:${typ}:${max}`;
const delayText = ({ rise, fall, toZ }: ExplicitDelay) => [rise, fall, toZ].map(triple).join(' ');

/** The delay that stands directly at the driver of a signal. */
function delayAt(netlist: Netlist, name: string): string {
  const { nodes, pieces, explicitDelays } = netlist;
  const net = pieces[signalOf(netlist, name).pieces[0]].node;
  const driver = nodes.pool[nodes.first[net]];
  if (nodes.op[driver] !== Op.delay) throw new Error(`no delay at ${name}`);
  return delayText(explicitDelays[nodes.aux[driver]]);
}

describe('delays in ps', () => {
  test.each([
    ['one for all', 'assign #2 y = a;', '2000 2000 2000'],
    ['rise and fall; to z the smaller (DLY-3)', 'assign #(10,12) y = a;', '10000 12000 10000'],
    ['three (DLY-13)', 'assign #(1,2,3) y = a;', '1000 2000 3000'],
    ['min:typ:max', 'assign #(1:2:3, 4:5:6) y = a;', '1000:2000:3000 4000:5000:6000 1000:2000:3000'],
    ['of a gate', 'nand #(3,4) g(y, a, b);', '3000 4000 3000'],
    ['of a net with a value', 'wire #5 w = a; assign #0 y = w;', '0 0 0'],
    ['by a parameter', 'parameter D = 3; assign #D y = a;', '3000 3000 3000'],
    ['by an expression', 'parameter D = 3; assign #(D+1) y = a;', '4000 4000 4000'],
    ['real, rounded to the precision', 'assign #1.6 y = a;', '2000 2000 2000'],
  ])('%s', async (_, text, expected) => {
    const { netlist, complaints } = await netlistOf(`module m(input a, b, output y); ${text} endmodule`);
    expect(complaints).toEqual([]);
    expect(delayAt(netlist, 'y')).toBe(expected);
  });

  test.each([
    ['1ns/1ps', '1.2345', '1235'],
    ['1ns/1ps', '1.2344', '1234'],
    ['10ns/1ns', '0.25', '3000'],
    ['1ns/100ps', '0.05', '100'],
    ['1ns/100ps', '0.0499', '0'],
    ['1us/1ns', '1', '1000000'],
    ['100ps/10ps', '3', '300'],
    ['1ps/1fs', '1.4', '1'],
    ['1ps/1fs', '1.5', '2'],
    ['1ns/1ps', '0.0025', '3'],
  ])('`timescale %s, #%s: half up, first to the precision, then to ps', async (scale, delay, expected) => {
    const { netlist } = await netlistOf(
      `\`timescale ${scale}\nmodule m(input a, output y); assign #${delay} y = a; endmodule`,
    );
    expect(delayAt(netlist, 'y')).toBe(`${expected} ${expected} ${expected}`);
  });

  test('of a net: around what its drivers resolve to', async () => {
    const { netlist } = await netlistOf(
      'module m(input a, b, output y); wand #3 w; assign w = a; assign #1 w = b; assign y = w; endmodule',
    );
    expect(driverOf(netlist, 'w')).toBe('delay(wand(a, delay(b)))');
    expect(delayAt(netlist, 'w')).toBe('3000 3000 3000');
  });

  test('behind a nonblocking assignment: clock to output', async () => {
    const { netlist, complaints } = await netlistOf(`\`timescale 1ns/1ps
      module m(input c, r, d, output reg q, p); always @(posedge c or posedge r) if (r) q <= #1.5 0; else q <= #1.5 d;
      always @(posedge c) p <= d; endmodule`);
    expect(complaints).toEqual([]);
    const { delay } = registerOf(netlist, 'q');
    expect(delayText(netlist.explicitDelays[delay])).toBe('1500 1500 1500');
    expect(registerOf(netlist, 'p').delay).toBe(-1);
  });

  test('bits with delays of their own are registers of their own', async () => {
    const { netlist } = await netlistOf(
      'module m(input c, input [1:0] d, output reg [1:0] q); always @(posedge c) begin q[0] <= #1 d[0]; q[1] <= #2 d[1]; end endmodule',
    );
    expect(netlist.registers.map(({ delay }) => netlist.explicitDelays[delay].rise.typ)).toEqual([1000, 2000]);
  });

  test.each([
    ['negative', 'assign #(-1) y = a;', 'unsupported negative-delay'],
    ['not a constant', 'assign #b y = a;', 'unsupported not-constant'],
    ['between statements', 'reg r; always @* begin #1 r = a; end assign y = r;', 'unsupported ignored-delay'],
    [
      'two on one register',
      'reg r; always @(posedge b) if (a) r <= #1 0; else r <= #2 1; assign y = r;',
      'unsupported mixed-delays',
    ],
  ])('%s: said, the rest holds', async (_, text, expected) => {
    const { netlist, complaints } = await netlistOf(`module m(input a, b, output y); ${text} endmodule`);
    expect(reasons(complaints)).toEqual([expected]);
    expect(driverOf(netlist, 'y')).toMatch(/^(a|r)$/);
  });
});

describe('delays inside a process that mean nothing in hardware are said, and the value used', () => {
  test.each([
    ['blocking in a clocked process', 'always @(posedge c) q = #1 d;'],
    ['blocking in logic', 'always @* q = #1 d;'],
    ['nonblocking in logic', 'always @* q <= #1 d;'],
  ])('%s', async (_, text) => {
    const { netlist, complaints } = await netlistOf(`module m(input c, d, output reg q); ${text} endmodule`);
    expect(reasons(complaints)).toEqual(['unsupported ignored-delay']);
    expect(driverOf(netlist, 'q')).toMatch(/^(d|R q)$/);
    for (const { delay } of netlist.registers) expect(delay).toBe(-1);
  });
});

describe('resolution', () => {
  test.each([
    ['wire', 'wire(a, b)'],
    ['tri', 'wire(a, b)'],
    ['wand', 'wand(a, b)'],
    ['triand', 'wand(a, b)'],
    ['wor', 'wor(a, b)'],
    ['trior', 'wor(a, b)'],
    ['tri0', 'tri0(a, b)'],
    ['tri1', 'tri1(a, b)'],
  ])('%s', async (type, expected) => {
    const { netlist } = await netlistOf(
      `module m(input a, b, output y); ${type} w; assign w = a; assign w = b; assign y = w; endmodule`,
    );
    expect(driverOf(netlist, 'w')).toBe(expected);
    expect(netlist.sharedDrivers).toHaveLength(1);
  });

  test('pulled nets that nothing drives, supplies', async () => {
    const { netlist, complaints } =
      await netlistOf(`module m(output a, b, c, d); tri1 p; tri0 q; supply1 r; supply0 s; wire t; pullup (t);
      assign a = p; assign b = q; assign c = r; assign d = s; endmodule`);
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'p')).toBe('tri1(undriven(p))');
    expect(driverOf(netlist, 't')).toBe('tri1(undriven(t))');
    expect([driverOf(netlist, 'r'), driverOf(netlist, 's')]).toEqual(['1', '0']);
  });

  test('bits driven apart, one of them twice', async () => {
    const { netlist } = await netlistOf(
      'module m(input a, b, output [2:0] y); assign y[0] = a; assign y[1] = a; assign y[1] = b; endmodule',
    );
    expect(driversOf(netlist, 'y')).toEqual(['undriven(y)<2:2>', 'wire(a, b)', 'a']);
    expect(
      netlist.sharedDrivers.map(({ signal, low, width }) => signalSliceName(netlist.signals[signal], low, width)),
    ).toEqual(['y[1]']);
  });

  test('two processes on one variable', async () => {
    const { netlist } = await netlistOf(
      'module m(input c, k, a, b, output reg q); always @(posedge c) q <= a; always @(posedge k) q <= b; endmodule',
    );
    expect(driverOf(netlist, 'q')).toBe('wire(R q, R q)');
    expect(netlist.sharedDrivers[0].drivers.map(({ process, canRelease }) => `${process} ${canRelease}`)).toEqual([
      '0 false',
      '1 false',
    ]);
  });

  test('initial and always are no two drivers', async () => {
    const { netlist } = await netlistOf(
      'module m(input c, a, output reg q); initial q = 0; always @(posedge c) q <= a; endmodule',
    );
    expect(netlist.sharedDrivers).toEqual([]);
  });
});

describe('gates', () => {
  test.each([
    ['and g(y, a, b, c);', 'and(a, b, c)'],
    ['nand (y, a, b);', 'nand(a, b)'],
    ['or (y, a, b);', 'or(a, b)'],
    ['nor (y, a, b);', 'nor(a, b)'],
    ['xor (y, a, b);', 'xor(a, b)'],
    ['xnor (y, a, b);', 'xnor(a, b)'],
    ['buf (y, a);', 'buf(a)'],
    ['not (y, a);', 'not(a)'],
    ['bufif1 (y, a, b);', 'tristate(a, b)'],
    ['bufif0 (y, a, b);', 'tristate(a, not(b))'],
    ['notif1 (y, a, b);', 'tristate(not(a), b)'],
    ['notif0 (y, a, b);', 'tristate(not(a), not(b))'],
    ['nand (y, a & b, ~c);', 'nand(and(a, b), not(c))'],
  ])('%s', async (text, expected) => {
    const { netlist, complaints } = await netlistOf(`module m(input a, b, c, output y); ${text} endmodule`);
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'y')).toBe(expected);
  });

  test('several outputs, several instances, an array (7.1.6)', async () => {
    const { netlist } = await netlistOf(`module m(input a, e, input [1:0] v, output p, q, r, output [1:0] w);
      buf (p, q, a); not n1(r, a), n2(s, r); and g[1:0](w, v, e); endmodule`);
    expect([driverOf(netlist, 'p'), driverOf(netlist, 'q'), driverOf(netlist, 's')]).toEqual([
      'buf(a)',
      'buf(a)',
      'not(r)',
    ]);
    expect(driversOf(netlist, 'w')).toEqual(['and(v[1], e)', 'and(v[0], e)']);
    expect(netlist.processes.map(({ flavor }) => flavor)).toEqual(['gate', 'gate', 'gate', 'gate', 'gate']);
  });

  test('a terminal of several bits is said, its lowest taken', async () => {
    const { netlist, complaints } = await netlistOf(
      'module m(input a, input [2:0] v, output y); and (y, v, a); endmodule',
    );
    expect(reasons(complaints)).toEqual(['unsupported terminal-width']);
    expect(driverOf(netlist, 'y')).toBe('and(v[0], a)');
  });
});

describe('loops of words', () => {
  test('a carry chain written on words is none', async () => {
    const { netlist } = await netlistOf(
      'module m(input [3:0] g, p, output [4:0] c); assign c[0] = 0; assign c[4:1] = g | (p & c[3:0]); endmodule',
    );
    expect(combinationalLoops(netlist)).toEqual([]);
    expect(driversOf(netlist, 'c').slice(-2)).toEqual(['or(g[0], and(p[0], c[0]))', '0']);
    expect(driversOf(netlist, 'c')[0]).toBe('or(g[3], and(p[3], c[3]))');
  });

  test('a word through an instance and back, shifted', async () => {
    const { netlist } = await netlistOf(`module m(input a, output [3:0] y); inv u({y[2:0], a}, y); endmodule
      module inv(input [3:0] i, output [3:0] o); assign o = ~i; endmodule`);
    expect(combinationalLoops(netlist)).toEqual([]);
    expect(driversOf(netlist, 'y')).toEqual(['u.o[3]', 'u.o[2]', 'u.o[1]', 'u.o[0]']);
  });

  test('a sum feeds only bits above', async () => {
    const { netlist } = await netlistOf(
      "module m(input [3:0] a, output [3:0] y); assign y = {y[2:0], 1'b1} + a; endmodule",
    );
    expect(combinationalLoops(netlist)).toEqual([]);
  });

  test('a true loop stays one, by its bits', async () => {
    const { netlist } = await netlistOf(
      'module m(input [1:0] a, output [1:0] y); assign y[1] = y[0] & a[1]; assign y[0] = ~y[1] | a[0]; endmodule',
    );
    expect(combinationalLoops(netlist)).toHaveLength(1);
  });

  test('bits of one process that feed each other through its own reads', async () => {
    const { netlist } = await netlistOf(
      'module m(input [3:0] a, output reg [3:0] y); always @* begin y[3:1] = y[2:0] ^ a[3:1]; y[0] = a[0]; end endmodule',
    );
    expect(combinationalLoops(netlist)).toEqual([]);
  });

  test('a register whose clock is a split bit', async () => {
    const { netlist } = await netlistOf(
      'module m(input a, d, input [1:0] g, output reg q); wire [2:0] k; assign k = {k[1:0] & g, a}; always @(posedge k[2]) q <= d; endmodule',
    );
    const { clock } = registerOf(netlist, 'q');
    expect(nodeText(netlist, clock.node)).toBe('k[2]');
    expect(clock.bit).toBe(0);
  });
});

describe('comparisons that never change (definition 18)', () => {
  test.each([
    ['v == 9', 0],
    ['v != 9', 1],
    ['v < 0', 0],
    ['v >= 0', 1],
    ['v <= 7', 1],
    ['v > 7', 0],
    ['s > 3', 0],
    ['s == 4', 0],
    ['s >= -4', 1],
    ['-1 == v', 0],
  ])('%s', async (text, value) => {
    const { netlist } = await netlistOf(
      `module m(input [2:0] v, input signed [2:0] s, output y); assign y = ${text}; endmodule`,
    );
    expect(netlist.fixedComparisons.map((fixed) => `${fixed.text} ${fixed.value}`)).toEqual([`${text} ${value}`]);
  });

  test.each(['v == 7', 'v < 1', 'v > 6', 's < 0', 's == -4', 's == 3', 'v == s', '4 == 5', 'v >= 1'])(
    '%s may be both',
    async (text) => {
      const { netlist } = await netlistOf(
        `module m(input [2:0] v, input signed [2:0] s, output y); assign y = ${text}; endmodule`,
      );
      expect(netlist.fixedComparisons).toEqual([]);
    },
  );
});

// Modules below modules: parameters (IEEE 1364-2005 12.2), ports (12.3), generate constructs and the names they make
// (12.4), hierarchical names (12.5), implicit nets (4.5).
import { describe, expect, test } from 'vitest';
import { toBinary } from '../../server/src/netlist/four-state';
import { type Netlist, topPorts } from '../../server/src/netlist/netlist';
import { netlistOf } from '../tools/elaborated';
import { clockingText, driverOf, driversOf, nodeText, registerNames, registerOf } from './netlist-text';

const names = (netlist: Netlist) => netlist.signals.map(({ name }) => name);
const paths = (netlist: Netlist) => netlist.instances.map(({ path, module }) => `${path}:${module}`);
const reasons = (complaints: readonly { readonly id: string; readonly reason: string }[]) =>
  complaints.map(({ id, reason }) => `${id} ${reason}`);

describe('ports', () => {
  const child = 'module inv(input [1:0] a, output [1:0] y); assign y = ~a; endmodule';
  test.each([
    ['by name', 'inv u(.a(p), .y(q));'],
    ['by order', 'inv u(p, q);'],
    ['by name alone', 'wire [1:0] a = p; wire [1:0] y; inv u(.a, .y); assign q = y;'],
    ['all the rest', 'wire [1:0] a = p; wire [1:0] y; inv u(.*); assign q = y;'],
  ])('connected %s', async (_, body) => {
    const { netlist, complaints } = await netlistOf(
      `module m(input [1:0] p, output [1:0] q); ${body} endmodule ${child}`,
    );
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'u.y')).toBe('not(u.a[1:0])');
    expect(paths(netlist)).toEqual([':m', 'u:inv']);
  });

  test('widths that differ are cut and widened as in an assignment', async () => {
    const { netlist } = await netlistOf(`module m(input [3:0] p, input s, output [3:0] q, output r); wire [1:0] y;
      inv u(.a(p), .y(q)); inv v(.a(s), .y({r, y[0]})); endmodule ${child}`);
    expect(driverOf(netlist, 'u.a')).toBe('p[1:0]');
    expect(driverOf(netlist, 'q')).toBe('{00, u.y[1:0]}');
    expect(driverOf(netlist, 'v.a')).toBe('{0, s}');
    expect(driverOf(netlist, 'r')).toBe('v.y[1]');
  });

  test('a signed output is widened by its sign', async () => {
    const { netlist } = await netlistOf(`module m(output [3:0] q); s u(q); endmodule
      module s(output signed [1:0] y); assign y = -1; endmodule`);
    expect(driverOf(netlist, 'q')).toBe('signExtend(u.y[1:0])');
  });

  test('left open: an input floats, an output goes nowhere', async () => {
    const { netlist, complaints } = await netlistOf(`module m(output q); e u(.a(), .y(q), .z()); endmodule
      module e(input a, output y, z); assign y = a; assign z = a; endmodule`);
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'u.a')).toBe('undriven(u.a)');
  });

  test('a non-ANSI header, in header order', async () => {
    const { netlist, complaints } = await netlistOf(`module m(c, q, d); output [1:0] q; input d; input c; reg [1:0] q;
      always @(posedge c) q <= {q[0], d}; endmodule`);
    expect(complaints).toEqual([]);
    expect(topPorts(netlist).map(({ name, port, kind }) => `${port} ${kind} ${name}`)).toEqual([
      'input net c',
      'output variable q',
      'input net d',
    ]);
  });

  test('a port that is a part of a signal', async () => {
    const { netlist, complaints } =
      await netlistOf(`module m(input [3:0] p, output [1:0] q); e u(q, p[1:0], p[3]); endmodule
      module e(y, v[1:0], a); input [3:0] v; input a; output [1:0] y; assign y = {a, v[0]}; endmodule`);
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'u.v')).toBe('{zz, p[1:0]}');
    expect(driverOf(netlist, 'u.a')).toBe('p[3]');
  });

  test('a clock through two levels is found at the pin', async () => {
    const { netlist } = await netlistOf(`module m(input clk, d, output q); a u(clk, d, q); endmodule
      module a(input c, d, output q); b v(c, d, q); endmodule
      module b(input k, d, output reg q); always @(negedge k) q <= d; endmodule`);
    expect(registerNames(netlist)).toEqual(['u.v.q']);
    expect(clockingText(netlist, registerOf(netlist, 'u.v.q'))).toBe('falling u.v.k');
    expect(driverOf(netlist, 'u.v.k')).toBe('u.c');
    expect(driverOf(netlist, 'u.c')).toBe('clk');
    expect(netlist.instances.map(({ parent }) => parent)).toEqual([null, 0, 1]);
  });

  test.each([
    ['an unknown port', 'inv u(.a(p), .b(q));', 'unresolved-name unknown-port'],
    ['too many', 'inv u(p, q, q);', 'unresolved-name too-many-ports'],
    ['one twice', 'inv u(.a(p), .a(p), .y(q));', 'unresolved-name port-connected-twice'],
    ['an unknown name behind .*', 'inv u(.*);', 'unresolved-name undeclared-name'],
  ])('%s is said', async (_, body, expected) => {
    const { complaints, netlist } = await netlistOf(
      `module m(input [1:0] p, output [1:0] q); ${body} endmodule ${child}`,
    );
    expect(new Set(reasons(complaints))).toEqual(new Set([expected]));
    expect(paths(netlist)).toEqual([':m', 'u:inv']);
  });

  test('an array of instances takes its bits of a connection (7.1.6)', async () => {
    const { netlist } = await netlistOf(`module m(input [3:0] p, input e, output [3:0] q); g u[3:0](p, e, q); endmodule
      module g(input a, e, output y); assign y = a & e; endmodule`);
    expect(paths(netlist)).toEqual([':m', 'u[3]:g', 'u[2]:g', 'u[1]:g', 'u[0]:g']);
    expect(driversOf(netlist, 'q')).toEqual(['u[3].y', 'u[2].y', 'u[1].y', 'u[0].y']);
    expect(driverOf(netlist, 'u[3].a')).toBe('p[3]');
    expect(driverOf(netlist, 'u[0].e')).toBe('e');
  });
});

describe('inouts and shared nets', () => {
  test('drivers of one bus in two modules meet outside', async () => {
    const { netlist } =
      await netlistOf(`module m(input e, f, a, b, output y); wire bus; pad u(bus, e, a); pad v(bus, f, b); assign y = bus; endmodule
      module pad(inout p, input e, d); assign p = e ? d : 1'bz; endmodule`);
    expect(driverOf(netlist, 'bus')).toBe('wire(mux(u.e, u.d, z), mux(v.e, v.d, z))');
    expect(driverOf(netlist, 'u.p')).toBe('bus');
    expect(netlist.sharedDrivers.map(({ drivers }) => drivers.map(({ canRelease }) => canRelease))).toEqual([
      [true, true],
    ]);
  });

  test('an inout of the top meets the world', async () => {
    const { netlist } = await netlistOf(
      "module m(inout p, input e, d, output y); assign p = e ? d : 1'bz; assign y = p; endmodule",
    );
    expect(driverOf(netlist, 'p')).toBe('wire(input(p), mux(e, d, z))');
    expect(driverOf(netlist, 'y')).toBe('p');
  });

  test('an inout that is only read is only the outside', async () => {
    const { netlist } = await netlistOf('module m(inout p, output y); assign y = p; endmodule');
    expect(driverOf(netlist, 'p')).toBe('input(p)');
  });
});

describe('parameters', () => {
  const child =
    'module c #(parameter W = 2, parameter [3:0] K = 5, parameter signed S = 1)(output [7:0] y); localparam L = W * 2; assign y = L + K; endmodule';
  const valuesOf = (netlist: Netlist) =>
    Object.fromEntries(netlist.instances[1].parameters.map(({ name, value }) => [name, parseInt(toBinary(value), 2)]));

  test.each([
    ['none', 'c u(y);', { W: 2, K: 5, S: 1, L: 4 }],
    ['by order', 'c #(3, 7) u(y);', { W: 3, K: 7, S: 1, L: 6 }],
    ['by name', 'c #(.K(20), .W(P)) u(y);', { W: 6, K: 4, S: 1, L: 12 }],
  ])('overridden: %s', async (_, body, expected) => {
    const { netlist, complaints } = await netlistOf(
      `module m(output [7:0] y); localparam P = 6; ${body} endmodule ${child}`,
    );
    expect(complaints).toEqual([]);
    expect(valuesOf(netlist)).toEqual(expected);
    expect(netlist.instances[1].parameters.map(({ name, local }) => `${name} ${local}`)).toEqual([
      'W false',
      'K false',
      'S false',
      'L true',
    ]);
  });

  test('from outside', async () => {
    const { netlist, complaints } = await netlistOf(
      `module m #(parameter W = 2, parameter T = 0)(output [W-1:0] y); assign y = T; endmodule`,
      {
        parameters: { W: "8'd5", T: '-1' },
      },
    );
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'y')).toBe('11111');
  });

  test.each([
    [{ NO: '1' }, 'unresolved-name unknown-parameter'],
    [{ W: 'two' }, 'unsupported bad-override'],
    [{ L: '1' }, 'unresolved-name unknown-parameter'],
  ])('what cannot be given from outside is said: %j', async (parameters, expected) => {
    const { complaints } = await netlistOf('module m #(parameter W = 2)(output y); localparam L = 1; endmodule', {
      parameters: parameters as Record<string, string>,
    });
    expect(reasons(complaints)).toEqual([expected]);
  });

  test.each([
    ['c #(.NO(1)) u(y);', 'unresolved-name unknown-parameter'],
    ['c #(.L(1)) u(y);', 'unresolved-name unknown-parameter'],
    ['c #(1, 2, 3, 4) u(y);', 'unresolved-name too-many-parameters'],
    ['c #(.W(v)) u(y);', 'unsupported not-constant'],
  ])('%s is said', async (body, expected) => {
    const { complaints } = await netlistOf(`module m(input v, output [7:0] y); ${body} endmodule ${child}`);
    expect(reasons(complaints)).toEqual([expected]);
  });

  test('types (4.10.1): its own, a range alone, signed alone', async () => {
    const { netlist } =
      await netlistOf(`module m; parameter A = 4'd9; parameter [7:0] B = -1; parameter signed C = 4'd15; parameter integer D = 3.5;
      wire [7:0] a = A, b = B, c = C; wire [31:0] d = D; endmodule`);
    expect([driverOf(netlist, 'a'), driverOf(netlist, 'b'), driverOf(netlist, 'c')]).toEqual([
      '00001001',
      '11111111',
      '11111111',
    ]);
    expect(parseInt(driverOf(netlist, 'd'), 2)).toBe(4);
  });

  test('a parameter that needs itself', async () => {
    const { complaints, netlist } = await netlistOf(
      'module m(output y); parameter A = B + 1, B = A + 1; assign y = 1; endmodule',
    );
    expect(reasons(complaints)).toEqual(['limit-reached cyclic-parameter']);
    expect(driverOf(netlist, 'y')).toBe('1');
  });

  test('in the order of need, whatever the order of the text', async () => {
    const { netlist } = await netlistOf(
      'module m(output [7:0] y); localparam A = B + 1; localparam B = 4; assign y = A; endmodule',
    );
    expect(parseInt(driverOf(netlist, 'y'), 2)).toBe(5);
  });
});

describe('generate', () => {
  test('unnamed blocks: numbered by construct, a zero more where the name is taken (12.4.3)', async () => {
    const { netlist, complaints } = await netlistOf(`module top; parameter genblk2 = 0; genvar i;
      if (genblk2) reg a; else reg b;
      if (genblk2) reg a; else reg b;
      for (i = 0; i < 1; i = i + 1) begin : g1
        if (1) reg a; else reg b;
        if (1) begin reg c; end
      end
      for (i = 0; i < 1; i = i + 1) if (1) reg d;
      case (1) 0: reg e; default: reg f; endcase
      endmodule`);
    expect(complaints).toEqual([]);
    expect(names(netlist)).toEqual([
      'genblk1.b',
      'genblk02.b',
      'g1[0].genblk1.a',
      'g1[0].genblk2.c',
      'genblk4[0].genblk1.d',
      'genblk5.f',
    ]);
  });

  test('an else-if is one construct (12.4.2)', async () => {
    const { netlist } = await netlistOf(`module m; parameter P = 2;
      if (P == 0) reg a; else if (P == 1) reg b; else if (P == 2) begin : two reg c; end else reg d;
      if (P == 0) reg a; else if (P == 2) reg e; endmodule`);
    expect(names(netlist)).toEqual(['two.c', 'genblk2.e']);
  });

  test('loops over instances, names by value', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, d, output q); wire [0:3] s; genvar g;
      generate for (g = 3; g >= 1; g = g - 1) begin : stage ff u(c, s[g-1], s[g]); end endgenerate
      assign s[0] = d; assign q = s[3]; endmodule
      module ff(input c, d, output reg q); always @(posedge c) q <= d; endmodule`);
    expect(complaints).toEqual([]);
    expect(paths(netlist)).toEqual([':m', 'stage[3].u:ff', 'stage[2].u:ff', 'stage[1].u:ff']);
    expect(driversOf(netlist, 's')).toEqual(['d', 'stage[1].u.q', 'stage[2].u.q', 'stage[3].u.q']);
  });

  test('nested loops, a parameter inside', async () => {
    const { netlist } = await netlistOf(`module m(output [3:0] y); genvar i, j;
      for (i = 0; i < 2; i = i + 1) begin : a for (j = 0; j < 2; j = j + 1) begin : b localparam K = 2 * i + j; assign y[K] = K % 2; end end endmodule`);
    expect(driversOf(netlist, 'y')).toEqual(['1', '0', '1', '0']);
  });

  test('dead arms make nothing, not even complaints', async () => {
    const { netlist, complaints } = await netlistOf(
      'module m(output y); if (0) begin nosuch u(oops.x); assign y = nothing; end else assign y = 1; endmodule',
    );
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'y')).toBe('1');
  });
});

describe('names', () => {
  test('hierarchical: into blocks, instances, named processes', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, d, output y, z, w, v); genvar g;
      for (g = 0; g < 2; g = g + 1) begin : s wire t = d ^ g; end
      sub u(c, d);
      always @(posedge c) begin : p reg k; k <= d; end
      assign y = s[1].t; assign z = u.inner.q; assign w = p.k; assign v = m.c; endmodule
      module sub(input c, d); leaf inner(c, d); endmodule
      module leaf(input c, d); reg q; always @(posedge c) q <= d; endmodule`);
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'y')).toBe('s[1].t');
    expect(driverOf(netlist, 'z')).toBe('u.inner.q');
    expect(driverOf(netlist, 'w')).toBe('p.k');
    expect(driverOf(netlist, 'v')).toBe('c');
  });

  test('an edge by a hierarchical name', async () => {
    const { netlist } =
      await netlistOf(`module m(input c, d, output reg y); sub u(c); always @(posedge u.q[1]) y <= d; endmodule
      module sub(input c); reg [1:0] q; always @(posedge c) q <= q + 1; endmodule`);
    expect(clockingText(netlist, registerOf(netlist, 'y'))).toBe('rising u.q[1]');
  });

  test.each(['y = nosuch;', 'y = s.t;', 'y = u.nosuch;', 'y = s[5].t;'])('unknown: %s', async (text) => {
    const { netlist, complaints } = await netlistOf(`module m(input d, output y); genvar g;
      for (g = 0; g < 2; g = g + 1) begin : s wire t = d; end sub u(d); assign ${text} endmodule module sub(input d); endmodule`);
    expect(reasons(complaints)).toEqual(['unresolved-name undeclared-name']);
    expect(driverOf(netlist, 'y')).toBe('hole()');
  });

  test('nets that need no declaration (4.5)', async () => {
    const { netlist, complaints } =
      await netlistOf(`module m(input a, b, output y); and g(t, a, b); assign u = t; sub i(.x(u), .z(w)); assign y = w; endmodule
      module sub(input x, output z); assign z = x; endmodule`);
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 't')).toBe('and(a, b)');
    expect(driverOf(netlist, 'w')).toBe('i.z');
  });

  test('escaped names keep their backslash and blank', async () => {
    const { netlist } = await netlistOf('module m(input \\a+b , output y); assign y = \\a+b ; endmodule');
    expect(driverOf(netlist, 'y')).toBe('\\a+b ');
    expect(nodeText(netlist, netlist.signals[0].node)).toBe('\\a+b ');
  });
});

describe('modules that are not given', () => {
  test('outputs are what nothing else drives; one complaint per name', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input a, output y, z); wire t;
      part u(.in(a), .out(t)); part v(.in(t), .out(y)); other w(a, z); endmodule`);
    expect(complaints.map(({ reason, args, related }) => `${reason} ${args.module} ${related.length}`)).toEqual([
      'module-not-given part 1',
      'module-not-given other 0',
    ]);
    expect(
      netlist.blackBoxes.map(
        ({ instance, pins }) => `${instance} ${pins.map(({ name, direction }) => `${name}:${direction}`).join(' ')}`,
      ),
    ).toEqual(['u in:input out:output', 'v in:input out:output', 'w 1:input 2:output']);
    expect(driverOf(netlist, 't')).toBe('blackBox()');
    expect(netlist.blackBoxOutputs[netlist.blackBoxes[0].pins[1].output]).toEqual({ box: 0, pin: 1 });
  });

  test('an output may drive a variable of a data type', async () => {
    const { netlist } = await netlistOf(
      'module m(input logic a, output logic y); logic t; part u(.in(a), .out(t)); assign y = t; endmodule',
    );
    expect(netlist.blackBoxes[0].pins.map(({ direction }) => direction)).toEqual(['input', 'output']);
    expect(driverOf(netlist, 't')).toBe('blackBox()');
  });

  test('a unit that is given but no module is said at its use', async () => {
    const { complaints } = await netlistOf(`module m(input a, output y); p u(y, a); endmodule
      primitive p(y, a); output y; reg y; input a; table * : 0 : 1; * : 1 : 0; endtable endprimitive`);
    expect(complaints.map(({ id, args }) => `${id} ${args.what}`)).toContain('unsupported primitive p');
    expect(complaints.map(({ id }) => id)).not.toContain('unresolved-module');
  });

  test('two pins on one net that nothing else drives: not known', async () => {
    const { netlist } = await netlistOf('module m(output y); wire t; p u(.x(t)); q v(.x(t)); assign y = t; endmodule');
    expect(netlist.blackBoxes.flatMap(({ pins }) => pins.map(({ direction }) => direction))).toEqual([
      'unknown',
      'unknown',
    ]);
    expect(driverOf(netlist, 't')).toBe('blackBox()');
  });
});

describe('the top', () => {
  const flop = (name: string, more = '') =>
    `module ${name}(input c, d, output reg q); ${more} always @(posedge c) q <= d; endmodule `;
  test.each([
    ['the only module', flop('a'), 'a', []],
    ['what nobody instantiates', `module b(input c, d, output q); a u(c, d, q); endmodule ${flop('a')}`, 'b', []],
    ['most registers', `${flop('a')}${flop('b', 'reg r; always @(posedge c) r <= q;')}`, 'b', ['a']],
    ['then the first', `${flop('a')}${flop('b')}`, 'a', ['b']],
    [
      'test benches last',
      `module bench; reg c; initial c = 0; always @(posedge c) c <= ~c; endmodule ${flop('a')}`,
      'a',
      [],
    ],
    ['a test bench alone', 'module bench; reg c; initial c = 0; endmodule', 'bench', []],
  ])('%s', async (_, text, top, others) => {
    const { elaboration } = await netlistOf(text);
    expect(elaboration.top).toBe(top);
    expect(elaboration.otherTops).toEqual(others);
  });

  test('as asked for', async () => {
    const { elaboration } = await netlistOf(`${flop('a')}${flop('b')}`, { top: 'b' });
    expect(elaboration.top).toBe('b');
    expect(elaboration.otherTops).toEqual(['a']);
  });

  const bench =
    'module bench; reg c, d; event e; a u(c, d); always #5 c = ~c; initial begin c = 0; #9 d = 1; -> e; end endmodule';

  test('what a test bench tests, though nothing else instantiates it', async () => {
    const { elaboration, complaints } = await netlistOf(`${bench} ${flop('a')}`);
    expect(elaboration.top).toBe('a');
    expect(reasons(complaints)).not.toContain('unsupported stimulus-only');
  });

  test('a test bench that is asked for: one complaint for all that it does in time', async () => {
    const { elaboration } = await netlistOf(`${bench} ${flop('a')}`, { top: 'bench' });
    expect(elaboration.complaints.map(({ reason }) => reason)).toEqual(['test-bench']);
  });

  test('not there', async () => {
    const { elaboration, complaints } = await netlistOf(flop('a'), { top: 'nosuch' });
    expect(elaboration.netlist).toBeNull();
    expect(elaboration.top).toBeNull();
    expect(reasons(complaints)).toEqual(['unresolved-name unknown-top']);
  });

  test('none at all', async () => {
    const { elaboration } = await netlistOf('// nothing');
    expect(elaboration).toMatchObject({ netlist: null, top: null, otherTops: [], complaints: [], modules: [] });
  });

  test('what is not part of the design is not complained about', async () => {
    const { elaboration, complaints } = await netlistOf(
      `${flop('a')}${flop('b', 'wire x = nosuch;')} module c; b u(); initial x = y; endmodule`,
      { top: 'a' },
    );
    expect(complaints).toEqual([]);
    expect(
      elaboration.modules.map(({ name, isInstantiated, isTestBench, isUsed }) => ({
        name,
        isInstantiated,
        isTestBench,
        isUsed,
      })),
    ).toEqual([
      { name: 'a', isInstantiated: false, isTestBench: false, isUsed: true },
      { name: 'b', isInstantiated: true, isTestBench: false, isUsed: false },
      { name: 'c', isInstantiated: false, isTestBench: true, isUsed: false },
    ]);
  });

  test('a module given twice: the first, and said', async () => {
    const { elaboration, complaints, netlist } = await netlistOf(`${flop('a')}module a; endmodule`);
    expect(reasons(complaints)).toEqual(['unsupported module-given-twice']);
    expect(elaboration.top).toBe('a');
    expect(registerNames(netlist)).toEqual(['q']);
  });
});

test('ports that are concatenations and parts (12.3.2): connected by order, or by an external name', async () => {
  const { netlist, complaints } = await netlistOf(
    `module m(input [2:0] a, input b, output [1:0] y, output z); n u(a, {y, z}, b); n v(.low(b)); endmodule
     module n({p, q[1:0]}, {r, s}, .low(t)); input p, t; input [1:0] q; output [1:0] r; output s; assign r = q, s = p ^ t; endmodule`,
    { top: 'm' },
  );
  expect(complaints).toEqual([]);
  expect(['u.p', 'u.q', 'u.t', 'y', 'z'].map((name) => driverOf(netlist, name))).toEqual([
    'a[2]',
    'a[1:0]',
    'b',
    'u.r[1:0]',
    'u.s',
  ]);
});

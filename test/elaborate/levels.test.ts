// Level processes: logic where every path assigns (SYN-6), latches where one does not (SYN-5; IEEE 1364.1 5.1, 5.2.3,
// quoted from memory), per slice; what is recorded about sensitivity lists (IEEE 1364-2005 9.7.5).
import { describe, expect, test } from 'vitest';
import { combinationalLoops } from '../../server/src/netlist/loops';
import type { Latch, Netlist } from '../../server/src/netlist/netlist';
import { signalSliceName } from '../../server/src/netlist/bit-names';
import { netlistOf } from '../tools/elaborated';
import { bitText, driverOf, driversOf, latchOf, nodeText } from './netlist-text';

const controlTexts = (netlist: Netlist, { asynchronous }: Latch) =>
  asynchronous
    .map(({ control, active, value }) => `${active} ${bitText(netlist, control)} ${nodeText(netlist, value)}`)
    .join(', ');

const readsOf = (netlist: Netlist, process = 0) =>
  netlist.processes[process].reads.map(({ signal, low, width }) =>
    signalSliceName(netlist.signals[signal], low, width),
  );

describe('logic', () => {
  test.each([
    ['both branches', 'if (a) y = b; else y = c;', 'mux(a, b, c)'],
    ['a default first', 'y = c; if (a) y = b;', 'mux(a, b, c)'],
    ['two tests that leave nothing', 'if (a) y = b; if (!a) y = c;', 'mux(not(a), c, mux(a, b, x))'],
    [
      'a case complete by width',
      'case (s) 0: y = a; 1: y = b; 2: y = c; 3: y = 0; endcase',
      'select(s[1:0], 00, a, 01, b, 10, c, 0)',
    ],
    ['a case with a default', 'case (s) 0: y = a; default: y = b; endcase', 'select(s[1:0], 00, a, b)'],
    ['labels in one item', 'case (s) 0, 3: y = a; default: y = b; endcase', 'select(s[1:0], 00, a, 11, a, b)'],
    [
      'the first equal label wins',
      'case (s) 0: y = a; 0: y = b; default: y = c; endcase',
      'select(s[1:0], 00, a, 00, b, c)',
    ],
    ['a label beyond the selector', 'case (s) 7: y = a; default: y = b; endcase', 'b'],
    [
      'CASE-7, which label is true (9.5)',
      "case (1'b1) s[1]: y = a; s[0]: y = b; default: y = c; endcase",
      'select(1, s[1], a, s[0], b, c)',
    ],
    ['nonblocking', 'y <= c; if (a) y <= b;', 'mux(a, b, c)'],
    ['a constant condition', 'if (1) y = a; else y = b;', 'a'],
  ])('%s', async (_, body, expected) => {
    const { netlist, complaints } = await netlistOf(
      `module m(input a, b, c, input [1:0] s, output reg y); always @* begin ${body} end endmodule`,
    );
    expect(complaints).toEqual([]);
    expect(netlist.latches).toEqual([]);
    expect(driverOf(netlist, 'y')).toBe(expected);
    expect(netlist.processes[0].kind).toBe('combinational');
  });

  test.each([
    [
      'CASE-3 (9.5.1, rule)',
      'casez',
      "8'b1???????: y = 1; 8'b01??????: y = 2; 8'b00010???: y = 3; 8'b000001??: y = 4;",
    ],
    ['casex', 'casex', "8'b1xxxxxxx: y = 1; 8'b01xxxxxx: y = 2; 8'b00010xxx: y = 3; 8'b000001xx: y = 4;"],
  ])('%s', async (_, kind, items) => {
    const { netlist, complaints } = await netlistOf(
      `module m(input [7:0] i, output reg [2:0] y); always @* ${kind} (i) ${items} default: y = 0; endcase endmodule`,
    );
    expect(complaints).toEqual([]);
    expect(driverOf(netlist, 'y')).toBe(
      'select(i[7:0], 10000000, 001, 01000000, 010, 00010000, 011, 00000100, 100, 000)',
    );
    expect(netlist.caseWildcards).toHaveLength(1);
  });

  test('a label with x in a plain case never matches hardware, and is said', async () => {
    const { netlist, complaints } = await netlistOf(
      "module m(input [1:0] s, input a, b, output reg y); always @* case (s) 2'b0x: y = a; default: y = b; endcase endmodule",
    );
    expect(complaints.map(({ id, reason }) => `${id} ${reason}`)).toEqual(['unsupported label-never-matches']);
    expect(driverOf(netlist, 'y')).toBe('b');
  });

  test('a loop unrolled, each turn seeing the last', async () => {
    const { netlist } = await netlistOf(`module m(input [3:0] a, output reg y); integer i;
      always @* begin y = 0; for (i = 0; i < 4; i = i + 1) y = y | a[i]; end endmodule`);
    expect(driverOf(netlist, 'y')).toBe('or(or(or(or(0, a[0]), a[1]), a[2]), a[3])');
  });

  test('a write at a variable index over a default', async () => {
    const { netlist } = await netlistOf(`module m(input [1:0] i, input d, output reg [3:0] y);
      always @* begin y = 0; y[i] = d; end endmodule`);
    expect(driverOf(netlist, 'y')).toBe('writeAt(0000, {000000000000000000000000000000, i[1:0]}, d)');
  });

  test('a read at a variable index', async () => {
    const { netlist } = await netlistOf('module m(input [1:0] i, input [4:1] v, output y); assign y = v[i]; endmodule');
    expect(driverOf(netlist, 'y')).toBe(
      'readAt(v[4:1], subtract({000000000000000000000000000000, i[1:0]}, 00000000000000000000000000000001))',
    );
  });

  test('a target of several parts (EXP-20, 6.1.2)', async () => {
    const { netlist } = await netlistOf(
      'module m(input [3:0] a, b, input ci, output co, output [3:0] s); assign {co, s} = a + b + ci; endmodule',
    );
    const sum = 'add(add({0, a[3:0]}, {0, b[3:0]}), {0000, ci})';
    expect(driverOf(netlist, 'co')).toBe(`${sum}<4:4>`);
    expect(driverOf(netlist, 's')).toBe(`${sum}<3:0>`);
  });

  test('case equality is read as equality, and said (SYN-11)', async () => {
    const { netlist, complaints } = await netlistOf(
      'module m(input [1:0] a, b, output y); assign y = a === b; endmodule',
    );
    expect(complaints.map(({ id, reason }) => `${id} ${reason}`)).toEqual(['unsupported case-equality']);
    expect(driverOf(netlist, 'y')).toBe('equal(a[1:0], b[1:0])');
  });
});

describe('latches', () => {
  test('one condition, intended', async () => {
    const { netlist } = await netlistOf(
      'module m(input en, d, output reg q); always @(en or d) if (en) q = d; endmodule',
    );
    const latch = latchOf(netlist, 'q');
    expect(bitText(netlist, latch.gate)).toBe('en');
    expect(latch).toMatchObject({ active: 'high', flavor: 'always', othersComplete: false, asynchronous: [] });
    expect(nodeText(netlist, latch.data)).toBe('d');
    expect(driverOf(netlist, 'q')).toBe('L q');
    expect(netlist.processes[0].kind).toBe('latch');
  });

  test('open while low', async () => {
    const { netlist } = await netlistOf('module m(input en, d, output reg q); always_latch if (!en) q <= d; endmodule');
    expect(latchOf(netlist, 'q')).toMatchObject({ active: 'low', flavor: 'always_latch' });
  });

  test('nested conditions open it together', async () => {
    const { netlist } = await netlistOf(
      'module m(input a, b, s, d, e, output reg q); always @* if (a) if (b) q = s ? d : e; endmodule',
    );
    const latch = latchOf(netlist, 'q');
    expect(nodeText(netlist, latch.gate.node)).toBe('and(a, b)');
    expect(nodeText(netlist, latch.data)).toBe('mux(s, d, e)');
  });

  test('a reset before it is a control', async () => {
    const { netlist } = await netlistOf(
      'module m(input rn, en, d, output reg q); always @* if (!rn) q = 0; else if (en) q = d; endmodule',
    );
    const latch = latchOf(netlist, 'q');
    expect(
      latch.asynchronous.map(
        ({ control, active, value }) => `${active} ${bitText(netlist, control)} ${nodeText(netlist, value)}`,
      ),
    ).toEqual(['low rn 0']);
    expect(bitText(netlist, latch.gate)).toBe('en');
    expect(latch.othersComplete).toBe(false);
  });

  test('an item that leaves the target alone, others complete', async () => {
    const text =
      'module m(input [1:0] s, input a, b, output reg y, z); always_comb begin z = a; case (s) 0: y = a; 1: y = b; 2: ; 3: y = 0; endcase end endmodule';
    const { netlist, reading } = await netlistOf(text);
    const latch = latchOf(netlist, 'y');
    expect(latch).toMatchObject({ flavor: 'always_comb', othersComplete: true });
    expect(reading.units[0].text.slice(latch.holdPlace.start, latch.holdPlace.end)).toBe('2: ;');
    expect(nodeText(netlist, latch.data)).toBe('select(s[1:0], 00, a, 01, b, 0)');
    expect(driverOf(netlist, 'z')).toBe('a');
  });

  test.each(['unique', 'priority'])(
    '%s says that an item is always taken (IEEE 1800-2017 12.5.3)',
    async (qualifier) => {
      const { netlist } = await netlistOf(
        `module m(input [1:0] s, input a, b, output reg y); always_comb ${qualifier} case (s) 0: y = a; 1: y = b; endcase endmodule`,
      );
      expect(netlist.latches).toEqual([]);
      expect(driverOf(netlist, 'y')).toBe('select(s[1:0], 00, a, b)');
    },
  );

  test('per slice', async () => {
    const { netlist } = await netlistOf(
      'module m(input e, input [3:0] d, output reg [3:0] q); always @* begin q[3:2] = d[3:2]; if (e) q[1:0] = d[1:0]; end endmodule',
    );
    expect(driversOf(netlist, 'q')).toEqual(['d[3:2]', 'L q[1:0]']);
    expect(latchOf(netlist, 'q[1:0]').othersComplete).toBe(true);
  });

  test('an addressed write opens each bit by its own address', async () => {
    const { netlist } = await netlistOf('module m(input a, d, output reg [1:0] q); always @* q[a] = d; endmodule');
    expect(netlist.latches).toHaveLength(2);
    expect(nodeText(netlist, latchOf(netlist, 'q[0]').gate.node)).toBe('equal(a, 0)');
  });

  test('a loop variable is none', async () => {
    const { netlist } = await netlistOf(`module m(input e, input [1:0] d, output reg [1:0] q); integer i;
      always @* if (e) for (i = 0; i < 2; i = i + 1) q[i] = d[i]; endmodule`);
    expect(netlist.latches.map(({ signal }) => netlist.signals[signal].name)).toEqual(['q']);
  });
});

describe('cross-coupled gates (definition 40)', () => {
  test.each([
    ['NAND gates', 'nand (q, s, n); nand (n, r, q);', 'low s 1, low r 0', 'nand(r, q)'],
    ['NOR gates', 'nor (q, r, n); nor (n, s, q);', 'high r 0, high s 1', 'nor(s, q)'],
    ['assignments', 'assign q = ~(r | n); assign n = ~(s | q);', 'high r 0, high s 1', 'not(or(s, q))'],
    ['more inputs', 'assign q = ~(s & t & n); nand (n, r, q);', 'low s 1, low t 1, low r 0', 'nand(r, q)'],
    ['delays', 'nand #2 (q, s, n); nand #3 (n, r, q);', 'low s 1, low r 0', 'delay(nand(r, q))'],
  ])('%s', async (_, text, controls, second) => {
    const { netlist, complaints } = await netlistOf(`module m(input s, r, t, output q, n); ${text} endmodule`);
    expect(complaints).toEqual([]);
    const latch = latchOf(netlist, 'q');
    expect(latch.flavor).toBe('gates');
    expect(controlTexts(netlist, latch)).toBe(controls);
    expect(driverOf(netlist, 'q')).toMatch(/L q/);
    expect(driverOf(netlist, 'n')).toBe(second);
    expect(combinationalLoops(netlist)).toEqual([]);
  });

  test.each([
    ['unlike gates', 'nand (q, s, n); nor (n, r, q);'],
    ['a ring of three', 'nand (q, s, n); nand (n, r, k); not (k, q);'],
    ['a gate that only reads itself', 'nor (q, r, q); assign n = q;'],
    ['two inverters', 'not (q, n); not (n, q);'],
  ])('a loop stays a loop: %s', async (_, text) => {
    const { netlist } = await netlistOf(`module m(input s, r, output q, n); ${text} endmodule`);
    expect(netlist.latches).toEqual([]);
    expect(combinationalLoops(netlist)).toHaveLength(1);
  });
});

describe('sensitivity (9.7.5)', () => {
  test.each([
    ['SEN-1 without its function', 'output reg y', 'y = (a & b) | (c & d);', ['a', 'b', 'c', 'd']],
    [
      'SEN-3, the index on the left counts, the target does not',
      'output reg [1:0] y',
      'begin y = 0; y[a] = !b; end',
      ['a', 'b'],
    ],
    ['a temporary is no input', 'output reg y', 'begin y = a & b; y = y | c; end', ['a', 'b', 'c']],
  ])('%s', async (_, port, body, expected) => {
    const { netlist } = await netlistOf(`module m(input a, b, c, d, ${port}); always @* ${body} endmodule`);
    expect(readsOf(netlist).sort()).toEqual(expected);
    expect(netlist.processes[0].implicitSensitivity).toBe(true);
  });

  test('SEN-4, a case on a constant over bits of the state', async () => {
    const { netlist } = await netlistOf(`module m(input go, ws, input [3:0] state, output reg [3:0] next);
      always @* begin next = 0; case (1'b1) state[0]: if (go) next[1] = 1; else next[0] = 1; state[1]: next[2] = 1;
      state[2]: if (!ws) next[3] = 1; else next[1] = 1; state[3]: next[0] = 1; endcase end endmodule`);
    expect(readsOf(netlist).sort()).toEqual(['go', 'state[0]', 'state[1]', 'state[2]', 'state[3]', 'ws']);
  });

  test('a list as written, for what is missing from it', async () => {
    const { netlist } = await netlistOf('module m(input a, b, output reg y); always @(a) y = a & b; endmodule');
    expect(netlist.processes[0].sensitivity.map(({ edge, text }) => `${edge} ${text}`)).toEqual(['null a']);
    expect(readsOf(netlist)).toEqual(['a', 'b']);
    expect(driverOf(netlist, 'y')).toBe('and(a, b)');
  });

  test('kinds of assignment', async () => {
    const { netlist } = await netlistOf(
      'module m(input a, output reg y, z); always @* begin y = a; z <= y; end endmodule',
    );
    expect(
      netlist.processes[0].assignments.map(({ signal, blocking }) => `${netlist.signals[signal].name} ${blocking}`),
    ).toEqual(['y true', 'z false']);
    expect(driverOf(netlist, 'z')).toBe('a');
  });
});

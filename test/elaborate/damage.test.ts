// Bad input: what is broken, unsupported or too large is a complaint at its place and unknown in the netlist; the rest
// is all there. Limits end every construct that would not end by itself.
import { describe, expect, test } from 'vitest';
import type { Netlist } from '../../server/src/netlist/netlist';
import { netlistOf } from '../tools/elaborated';
import { driverOf, nodeText, registerNames, registerOf } from './netlist-text';

const reasons = (complaints: readonly { readonly id: string; readonly reason: string; readonly args: object }[]) =>
  complaints.map(({ id, reason, args }) => ('limit' in args ? `${id} ${args.limit}` : `${id} ${reason}`));
const paths = (netlist: Netlist) => netlist.instances.map(({ path }) => path);
const keeper = 'always @(posedge c) kept <= d;';

describe('a header that has lost a port', () => {
  const part = 'module part(input a, input 3 b, output y); assign y = a & b; endmodule\n';

  test('the module itself: the lost name is unknown, and no name is called undeclared', async () => {
    const { netlist, complaints } = await netlistOf(part, { top: 'part' });
    expect(reasons(complaints)).toEqual(['syntax unexpected']);
    expect(netlist?.signals.map(({ name }) => name)).toEqual(['a', 'y']);
  });

  test('connections by order, or to a name that is not there, are not guessed', async () => {
    for (const connections of ['i, j, o', '.a(i), .b(j), .y(o)', '.*']) {
      const text = `${part}module m(input i, j, output o); part p(${connections}); endmodule`;
      const { netlist, complaints } = await netlistOf(text, { top: 'm' });
      expect(reasons(complaints)).toEqual(['syntax unexpected', 'unsupported construct']);
      expect(netlist && paths(netlist)).toEqual(['']);
    }
  });

  test('connections by names that are there are kept', async () => {
    const text = `${part}module m(input i, output o); part p(.a(i), .y(o)); endmodule`;
    const { netlist, complaints } = await netlistOf(text, { top: 'm' });
    expect(reasons(complaints)).toEqual(['syntax unexpected']);
    expect(netlist && paths(netlist)).toEqual(['', 'p']);
  });
});

describe('broken text', () => {
  test('a statement: what it names is unknown, its neighbors are not', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, d, output reg q, kept);
      always @(posedge c) begin q <= (d ; kept <= d; end endmodule`);
    expect(complaints.some(({ id }) => id === 'syntax')).toBe(true);
    expect(nodeText(netlist, registerOf(netlist, 'kept').data)).toBe('d');
  });

  test('an item', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, d, output reg kept, output y, z);
      assign y = d + ; assign z = d; ${keeper} endmodule`);
    expect(complaints.some(({ id }) => id === 'syntax')).toBe(true);
    expect(registerNames(netlist)).toEqual(['kept']);
    expect(driverOf(netlist, 'z')).toBe('d');
    expect(driverOf(netlist, 'y')).toMatch(/hole/);
  });

  test('another module', async () => {
    const { netlist, elaboration } = await netlistOf(`module bad(input a; assign = ; endmodule
      module m(input c, d, output reg kept); ${keeper} endmodule`);
    expect(elaboration.modules.map(({ name }) => name)).toContain('m');
    expect(netlist).not.toBeNull();
  });
});

describe('what is not read', () => {
  test.each([
    ['a void function', 'function void f(input x); endfunction assign y = f(d);'],
    ['a function of another module', 'assign y = u.f(d);'],
    ['a function that is none', 'assign y = d(d);'],
    ['an argument too few', 'function f(input x, z); f = x & z; endfunction assign y = f(d);'],
    [
      'a function that assigns what is not its own',
      'reg t; function f(input x); begin t = x; f = x; end endfunction assign y = f(d);',
    ],
    ['a static function that calls itself', 'function f(input x); f = x ? f(d) : d; endfunction assign y = f(d);'],
    ['a function without end', 'function automatic f(input x); f = f(x) ^ d; endfunction assign y = f(d);'],
    [
      'a loop without end in a function',
      'function f(input x); begin f = x; while (1) f = ~f; end endfunction assign y = f(d);',
    ],
    [
      'a task with a time control',
      'task t(input x, output z); @(d) z = x; endtask reg r; always @* t(d, r); assign y = r;',
    ],
    ['a task that is none', 'reg r; always @* begin r = 0; e(d, r); end assign y = r;'],
    ['an array of nets too large to follow', 'wire [31:0] mem [0:4095]; assign y = mem[d];'],
    ['an array as a whole', 'reg [7:0] mem [0:3]; assign y = mem;'],
    ['a row of an array', 'reg [7:0] mem [0:3][0:3]; assign y = mem[1];'],
    ['a part of an array', 'reg [7:0] mem [0:3]; assign y = mem[1:2];'],
    ['a real variable', 'real r; assign y = r;'],
    ['an unknown function', 'assign y = $nosuch(d);'],
    ['a member that the structure has not', 'struct packed { logic a; } v; assign y = v.b;'],
    ['a row of an array at an index that varies', 'reg [7:0] mem [0:3][0:3]; assign y = mem[d];'],
    [
      'a jump out of another process',
      'reg r; always @* begin : a r = d; disable b; end always @* begin : b end assign y = r;',
    ],
    [
      'a loop that does not end by constants',
      'integer i; reg r; always @* begin r = 0; for (i = 0; i < d; i = i + 1) r = ~r; end assign y = r;',
    ],
    ['a process that waits for nothing', 'reg r; always r = d; assign y = r;'],
    ['parallel statements', 'reg r; always @* fork r = d; join assign y = r;'],
    ['a wait in the middle', 'reg r; always @* begin wait (d) r = d; end assign y = r;'],
  ])('%s', async (_, text) => {
    const { netlist, complaints } = await netlistOf(
      `module m(input c, d, output reg kept, output y); ${text} ${keeper} endmodule`,
    );
    expect(complaints.length).toBeGreaterThan(0);
    expect(complaints.map(({ id }) => id)).not.toContain('syntax');
    expect(nodeText(netlist, registerOf(netlist, 'kept').data)).toBe('d');
    const unknown = driverOf(netlist, 'y');
    expect(unknown === 'r' ? driverOf(netlist, 'r') : unknown).toMatch(/hole/);
  });

  test('a net assigned in a process: an error in the text, read as the register it was meant to be', async () => {
    const { netlist, complaints } = await netlistOf(
      'module m(input c, d, output q); always @(posedge c) q <= d; endmodule',
    );
    expect(reasons(complaints)).toEqual(['syntax net-assigned-in-process']);
    expect(registerNames(netlist)).toEqual(['q']);
  });

  test('an output port that cannot be read leaves its net unknown', async () => {
    const { netlist } = await netlistOf(`module m(input d, output y, z); a u(d, y, z); endmodule
      module a(input d, output [oops:0] y, output z); assign z = d; endmodule`);
    expect(driverOf(netlist, 'y')).toBe('hole()');
    expect(driverOf(netlist, 'z')).toBe('u.z');
  });

  test('printing changes nothing and is not complained about', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, d, output reg kept);
      always @(posedge c) begin $display("%b", d); kept <= d; end endmodule`);
    expect(complaints).toEqual([]);
    expect(registerNames(netlist)).toEqual(['kept']);
  });

  test('stimulus: its start value holds, its signal is unknown after', async () => {
    const { netlist, complaints } =
      await netlistOf(`module m(output reg kept); reg c, d; initial begin c = 0; d = 0; end
      always #5 c = ~c; initial #20 d = 1; ${keeper} endmodule`);
    expect(reasons(complaints)).toEqual(['unsupported stimulus-only', 'unsupported stimulus-only']);
    expect(driverOf(netlist, 'c')).toMatch(/hole/);
    expect(netlist.processes.map(({ flavor, kind }) => `${flavor} ${kind}`)).toEqual([
      'initial stimulus',
      'initial stimulus',
      'always stimulus',
      'always clocked',
    ]);
    expect(registerNames(netlist)).toEqual(['kept']);
  });

  test('an undeclared name in an expression: that operand alone', async () => {
    const { netlist, complaints } = await netlistOf(
      'module m(input [3:0] d, output [3:0] y); assign y = d & oops; endmodule',
    );
    expect(reasons(complaints)).toEqual(['unresolved-name undeclared-name']);
    expect(driverOf(netlist, 'y')).toBe('and(d[3:0], hole())');
  });

  test('an undeclared target', async () => {
    const { netlist, complaints } = await netlistOf(
      'module m(input c, d, output reg kept); always @(posedge c) begin oops <= d; kept <= d; end endmodule',
    );
    expect(reasons(complaints)).toEqual(['unresolved-name undeclared-name']);
    expect(registerNames(netlist)).toEqual(['kept']);
  });

  test('no implicit nets where the text says none', async () => {
    const { complaints } = await netlistOf(
      '`default_nettype none\nmodule m(input wire d, output wire y); assign t = d; assign y = t; endmodule',
    );
    expect(new Set(reasons(complaints))).toEqual(new Set(['unresolved-name undeclared-name']));
  });

  test('one place, one complaint, however often it is elaborated', async () => {
    const { complaints } = await netlistOf(`module m(input d); a #(1) u(d); a #(2) v(d); endmodule
      module a #(parameter P = 0)(input d); genvar g; for (g = 0; g < 4; g = g + 1) begin wire w = oops; end endmodule`);
    expect(reasons(complaints)).toEqual(['unresolved-name undeclared-name']);
  });

  test.each(['input', 'output', 'a', 'reg'])('declared twice: %s', async (kind) => {
    const text = kind === 'a' ? 'a u(); wire u;' : kind === 'reg' ? 'reg r; wire r;' : 'wire p;';
    const { complaints } = await netlistOf(
      `module m(${kind === 'output' ? 'output' : 'input'} p); ${text} endmodule module a; endmodule`,
    );
    expect(reasons(complaints)).toEqual(['unsupported declared-twice']);
  });
});

describe('limits', () => {
  test('a generate loop of a thousand million turns', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input c, d, output reg kept, output y); genvar g;
      for (g = 0; g < 1000000000; g = g + 1) begin : b assign y = d; end ${keeper} endmodule`);
    expect(reasons(complaints)).toEqual(['limit-reached unroll']);
    expect(driverOf(netlist, 'y')).toBe('hole()');
    expect(registerNames(netlist)).toEqual(['kept']);
  });

  test('a generate loop that stands still', async () => {
    const { complaints } = await netlistOf(
      'module m; genvar g; for (g = 0; g < 2; g = g) begin : b wire w; end endmodule',
    );
    expect(reasons(complaints)).toEqual(['limit-reached unroll']);
  });

  test.each([
    ['for', 'for (i = 0; i < 1000000000; i = i + 1) y = ~y;'],
    ['while', 'begin i = 0; while (i >= 0) i = i; y = d; end'],
    ['repeat', 'repeat (1000000000) y = ~y;'],
  ])('a %s loop inside a process', async (_, text) => {
    const { netlist, complaints } = await netlistOf(
      `module m(input c, d, output reg kept, y); integer i; always @* ${text} ${keeper} endmodule`,
      { limits: { unroll: 1000 } },
    );
    expect(reasons(complaints)).toEqual(['limit-reached unroll']);
    expect(registerNames(netlist)).toEqual(['kept']);
    expect(netlist.processes[0].assignments.length).toBeGreaterThan(0);
  });

  test('a loop inside an initial block', async () => {
    const { complaints } = await netlistOf('module m; reg r; initial forever r = 1; endmodule', {
      limits: { unroll: 1000 },
    });
    expect(reasons(complaints)).toContain('limit-reached unroll');
  });

  test('a nest of loops: statements are counted together', async () => {
    const { complaints } = await netlistOf(
      `module m(output reg y); integer i, j, k; always @* for (i = 0; i < 1000; i = i + 1) for (j = 0; j < 1000; j = j + 1) for (k = 0; k < 1000; k = k + 1) y = ~y; endmodule`,
      { limits: { nodes: 5000 } },
    );
    expect(reasons(complaints)).toContain('limit-reached nodes');
  });

  test('a module inside itself', async () => {
    const { netlist, complaints } = await netlistOf(`module m(input a, output y); m u(a, y); endmodule`);
    expect(reasons(complaints)).toEqual(['limit-reached recursive-module']);
    expect(paths(netlist)).toEqual(['']);
    expect(driverOf(netlist, 'y')).toBe('hole()');
  });

  test('two modules inside each other', async () => {
    const { netlist, complaints } = await netlistOf(
      'module a(input x, output y); b u(x, y); endmodule module b(input x, output y); a u(x, y); endmodule',
      { top: 'a' },
    );
    expect(reasons(complaints)).toEqual(['limit-reached recursive-module']);
    expect(paths(netlist)).toEqual(['', 'u']);
  });

  test('a recursion that ends by its parameter is read', async () => {
    const { netlist, complaints } = await netlistOf(`module tree #(parameter N = 4)(input [2**N-1:0] d, output y);
      if (N == 0) assign y = d; else begin : g wire a, b; tree #(N-1) l(d[2**(N-1)-1:0], a); tree #(N-1) h(d[2**N-1:2**(N-1)], b); assign y = a ^ b; end endmodule`);
    expect(complaints).toEqual([]);
    expect(netlist.instances).toHaveLength(31);
    expect(netlist.instances[30].path).toBe('g.h.g.h.g.h.g.h');
  });

  test('a recursion that does not', async () => {
    const { netlist, complaints } = await netlistOf('module m #(parameter N = 0)(input a); m #(N+1) u(a); endmodule', {
      limits: { depth: 5 },
    });
    expect(reasons(complaints)).toEqual(['limit-reached depth']);
    expect(netlist.instances).toHaveLength(5);
  });

  test('doubling at every level', async () => {
    const levels = Array.from(
      { length: 40 },
      (_, level) => `module l${level}(input a); l${level + 1} x(a); l${level + 1} y(a); endmodule`,
    );
    const { netlist, complaints } = await netlistOf(`${levels.join('\n')} module l40(input a); endmodule`, {
      limits: { instances: 1000 },
    });
    expect(new Set(reasons(complaints))).toEqual(new Set(['limit-reached instances']));
    expect(netlist.instances.length).toBeLessThanOrEqual(1000);
  });

  test.each([
    ['a vector', 'wire [1000000000:0] w;'],
    ['a replication', "wire w = |{1000000000{1'b1}};"],
    ['a number', "wire w = |1000000000'b0;"],
    ['a product of replications', "wire w = |{1000{{1000{1'b1}}}};"],
  ])('a width: %s', async (_, text) => {
    const { netlist, complaints } = await netlistOf(
      `module m(input c, d, output reg kept); ${text} ${keeper} endmodule`,
    );
    expect(reasons(complaints)).toEqual(['limit-reached width']);
    expect(registerNames(netlist)).toEqual(['kept']);
  });

  test('nodes', async () => {
    const { complaints, netlist } = await netlistOf(
      `module m(input [63:0] d, output reg y); integer i; always @* begin y = 0; for (i = 0; i < 64; i = i + 1) y = y ^ (d[i] & ~y); end endmodule`,
      { limits: { nodes: 100 } },
    );
    expect(reasons(complaints)).toContain('limit-reached nodes');
    expect(netlist.nodes.count).toBeLessThan(200);
  });

  test('selects inside the bounds of selects', async () => {
    const { netlist } = await netlistOf(
      `module m(output y); localparam [7:0] P = 0; assign y = ${'P['.repeat(60)}0${':0]'.repeat(60)}; endmodule`,
    );
    expect(driverOf(netlist, 'y')).toBe('0');
  });

  test.each([90, 5_000])('deep nesting, %i levels', async (depth) => {
    const nested = {
      'else-if': `${'if (d) y = 0; else '.repeat(depth)} y = 1;`,
      brackets: `y = ${'~('.repeat(depth)}d${')'.repeat(depth)};`,
      sum: `y = ${'d ^ '.repeat(depth)} d;`,
    };
    for (const body of Object.values(nested)) {
      const { complaints } = await netlistOf(
        `module m(input c, d, output reg kept, y); always @* ${body} ${keeper} endmodule`,
      );
      if (depth < 1000) expect(reasons(complaints)).toEqual([]);
      else expect(complaints.every(({ id }) => id === 'limit-reached' || id === 'syntax')).toBe(true);
    }
  });
});

describe('the same again', () => {
  test('the same input gives the same netlist and complaints', async () => {
    const text = `module m(input c, d, output y); a u(c, d, y); nosuch v(y, w); assign z = oops; endmodule
      module a(input c, d, output reg q); always @(posedge c) q <= d; endmodule`;
    const [first, second] = [await netlistOf(text), await netlistOf(text)];
    expect(JSON.stringify(first.netlist)).toBe(JSON.stringify(second.netlist));
    expect(first.complaints).toEqual(second.complaints);
  });

  test('every hole names its complaint', async () => {
    const { netlist, elaboration } =
      await netlistOf(`module m(input d, output y, z); a u(d, y); assign z = d & one; endmodule
      module a(input d, output y); assign y = d & two; endmodule`);
    const holes = Array.from(netlist.nodes.op.entries())
      .filter(([, op]) => op === 6)
      .map(([node]) => elaboration.complaints[netlist.nodes.aux[node]]?.args.name);
    expect(holes.sort()).toEqual(['one', 'two']);
  });
});

// The definitions once more on Verilog as people write it. Each text stands for a habit of its own; the circuits of the
// other tests in this folder are made by hand.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { netlistOf } from '../tools/elaborated';
import { type Described, describeClocks } from './describe-clocks';

async function clocksOf(text: string): Promise<Described> {
  const { netlist, complaints } = await netlistOf(text);
  expect(complaints).toEqual([]);
  return describeClocks(netlist);
}

const example = (name: string) => readFileSync(new URL(`../../examples/${name}.v`, import.meta.url), 'utf8');

const verdictOf = ({ network }: Described, name: string) => network.clocks.find((clock) => clock.name === name)?.gate;

describe('the examples', () => {
  it('a ripple counter written bit by bit is one chain', async () => {
    const found = await clocksOf(example('ripple-counter'));
    expect(found.chains).toEqual(['count[0] > count[1] > count[2] > count[3]']);
    expect(found.registers['count[3]']).toBe('count[2] falling, bottle falling, stage 4, bottle');
  });

  it('a divided clock that feeds a block is none', async () => {
    const found = await clocksOf(example('divided-clock'));
    expect(found.chains).toEqual([]);
    expect(found.registers['history[3:0]']).toBe('divider[2] rising, clk rising, stage 2, clk');
    expect(found.clocks).toEqual({ clk: 'root', 'divider[2]': 'derived of clk' });
  });

  it('a synchronous counter is one register of one clock', async () => {
    const found = await clocksOf(example('synchronous-counter'));
    expect(found.chains).toEqual([]);
    expect(found.register('count[3:0]')).toMatchObject({ stage: 1, selfDriven: true });
  });

  it('a state machine counts nothing by itself', async () => {
    const found = await clocksOf(example('wash-controller'));
    expect(found.register('state[2:0]').selfDriven).toBe(false);
    expect(found.register('ticks[2:0]').selfDriven).toBe(true);
  });
});

describe('ripple counters', () => {
  it('of instances of a toggle flip-flop', async () => {
    const found = await clocksOf(`
      module tff(input t, clk, rst_n, output reg q);
        always @(negedge clk or negedge rst_n) if (!rst_n) q <= 0; else if (t) q <= ~q;
      endmodule
      module top(input clk, rst_n, output [2:0] q);
        tff a(1'b1, clk, rst_n, q[0]);
        tff b(1'b1, q[0], rst_n, q[1]);
        tff c(1'b1, q[1], rst_n, q[2]);
      endmodule`);
    expect(found.chains).toEqual(['a.q > b.q > c.q']);
    expect(found.registers['c.q']).toBe('b.q falling, clk falling, stage 3, clk');
  });

  it('of D flip-flops fed back from their inverted outputs, generated', async () => {
    const found = await clocksOf(`
      module dff(input d, clk, output reg q, output qn);
        assign qn = ~q;
        always @(posedge clk) q <= d;
      endmodule
      module top(input clk, output [2:0] q);
        wire [3:0] n;
        assign n[0] = clk;
        genvar i;
        generate for (i = 0; i < 3; i = i + 1) begin : g
          dff u(n[i+1], n[i], q[i], n[i+1]);
        end endgenerate
      endmodule`);
    expect(found.chains).toEqual(['g[0].u.q > g[1].u.q > g[2].u.q']);
    expect(found.registers['g[2].u.q']).toBe('g[1].u.qn rising, clk rising, stage 3, clk');
  });

  it('of JK flip-flops written as a case', async () => {
    const found = await clocksOf(`
      module jk(input j, k, clk, output reg q);
        always @(negedge clk) case ({j, k})
          2'b00: q <= q;
          2'b01: q <= 0;
          2'b10: q <= 1;
          2'b11: q <= ~q;
        endcase
      endmodule
      module top(input clk, run, output [1:0] q);
        jk a(run, run, clk, q[0]);
        jk b(1'b1, 1'b1, q[0], q[1]);
      endmodule`);
    expect(found.chains).toEqual(['a.q > b.q']);
  });

  it('cut short by a decoded clear', async () => {
    const found = await clocksOf(`
      module top(input clk, output reg [1:0] q);
        wire clear = q[1] & q[0];
        always @(negedge clk or posedge clear) if (clear) q[0] <= 0; else q[0] <= ~q[0];
        always @(negedge q[0] or posedge clear) if (clear) q[1] <= 0; else q[1] <= ~q[1];
      endmodule`);
    expect(found.chains).toEqual(['q[0] > q[1]']);
    expect(found.network.resets).toMatchObject([{ name: 'clear', active: 'high', release: 'raw' }]);
  });

  it('of two counters of four bits, linked by the most significant', async () => {
    const found = await clocksOf(`
      module top(input clk, output reg [3:0] low, high);
        always @(negedge clk) low <= low + 1;
        always @(negedge low[3]) high <= high + 1;
      endmodule`);
    expect(found.chains).toEqual(['low[3:0] > high[3:0]']);
  });

  it('of every second bit of one vector, the others clocked together', async () => {
    const found = await clocksOf(`
      module top(input clk, output reg [3:0] q);
        always @(posedge clk) q[1:0] <= q[1:0] + 1;
        always @(negedge q[1]) {q[3], q[2]} <= {q[3] ^ q[2], ~q[2]};
      endmodule`);
    expect(found.registers).toEqual({
      'q[1:0]': 'clk rising, clk rising, stage 1, clk',
      'q[3:2]': 'q[1] falling, clk rising, stage 2, clk',
    });
    expect(found.chains).toEqual(['q[1:0] > q[3:2]']);
  });
});

describe('gates', () => {
  it('a latch in a module of its own is sound', async () => {
    const found = await clocksOf(`
      module gate(input clk, en, output gclk);
        reg held;
        always @* if (!clk) held = en;
        assign gclk = clk & held;
      endmodule
      module top(input clk, en, d, output reg q);
        wire g;
        gate u(.clk(clk), .en(en), .gclk(g));
        always @(posedge g) q <= d;
      endmodule`);
    expect(found.registers.q).toBe('u.gclk rising, clk rising, stage 1, clk');
    expect(verdictOf(found, 'u.gclk')).toMatchObject({ verdict: 'sound', why: { reason: 'latch-open-while-blocked' } });
    expect(found.network.latches).toMatchObject([{ active: 'low', intended: true }]);
    expect(found.network.domains).toHaveLength(1);
  });

  it('an enable of the same edge is not, and of the other edge is', async () => {
    const text = (edge: string) => `
      module top(input clk, d, e, output reg q);
        reg en;
        always @(${edge} clk) en <= e;
        wire g = clk && en;
        always @(posedge g) q <= d;
      endmodule`;
    expect(verdictOf(await clocksOf(text('posedge')), 'g')?.verdict).toBe('unsound');
    expect(verdictOf(await clocksOf(text('negedge')), 'g')?.verdict).toBe('sound');
  });

  it('a conditional with a constant is a gate', async () => {
    const text = (edge: string, rest: string) => `
      module top(input clk, d, e, output reg q);
        reg en;
        always @(${edge} clk) en <= e;
        wire g = en ? clk : ${rest};
        always @(posedge g) q <= d;
      endmodule`;
    expect(verdictOf(await clocksOf(text('negedge', "1'b0")), 'g')).toMatchObject({
      verdict: 'sound',
      blockingLevel: 0,
    });
    expect(verdictOf(await clocksOf(text('negedge', "1'b1")), 'g')?.verdict).toBe('unsound');
    expect(verdictOf(await clocksOf(text('posedge', "1'b1")), 'g')).toMatchObject({
      verdict: 'sound',
      blockingLevel: 1,
    });
  });

  it('a gate inside the edge list is called as written', async () => {
    const found = await clocksOf(`
      module top(input clk, en, d, output reg q, p);
        always @(posedge (clk & en)) q <= d;
        always @(posedge clk) p <= d;
      endmodule`);
    expect(found.registers.q).toBe('clk & en rising, clk rising, stage 1, clk');
  });

  it('primitives with delays are gates like any other', async () => {
    const found = await clocksOf(`
      module top(input clk, en, d, output reg q, p);
        wire g, n;
        not (n, clk);
        and #2 (g, n, en);
        always @(posedge g) q <= d;
        always @(negedge clk) p <= d;
      endmodule`);
    expect(found.registers.q).toBe('g rising, clk falling, stage 1, clk');
    expect(found.clocks).toEqual({ clk: 'root', n: 'inverted of clk', g: 'gated of n' });
  });

  it('only the name tells, and that is said; or not even the name', async () => {
    const text = (clock: string) => `
      module top(input ${clock}, run, d, output reg q);
        wire g = ${clock} & run;
        always @(posedge g) q <= d;
      endmodule`;
    expect((await clocksOf(text('clk'))).clock('g').assumedFromName).toBe('clk');
    expect((await clocksOf(text('beat'))).clock('g').candidates).toEqual(['beat', 'run']);
  });
});

describe('switches', () => {
  const guarded = (first: string, second: string) => `
    module top(input clka, clkb, sel, rst_n, d, output reg q);
      reg a1, a2, b1, b2;
      always @(posedge clka or negedge rst_n) if (!rst_n) a1 <= 0; else a1 <= ${first};
      always @(negedge clka or negedge rst_n) if (!rst_n) a2 <= 0; else a2 <= a1;
      always @(posedge clkb or negedge rst_n) if (!rst_n) b1 <= 0; else b1 <= ${second};
      always @(negedge clkb or negedge rst_n) if (!rst_n) b2 <= 0; else b2 <= b1;
      wire c = (clka & a2) | (clkb & b2);
      always @(posedge c) q <= d;
    endmodule`;

  it('guarded both ways are sound, and so are the crossings of the guard', async () => {
    const found = await clocksOf(guarded('~sel & ~b2', 'sel & ~a2'));
    expect(found.clocks.c).toBe('switched of clka, clkb');
    expect(verdictOf(found, 'c')).toMatchObject({ kind: 'switch', verdict: 'sound' });
    expect(found.network.crossings.map(({ status, depth }) => `${status} ${depth}`)).toEqual([
      'protected 2',
      'protected 2',
    ]);
  });

  it('guarded one way only are not', async () => {
    const found = await clocksOf(guarded('~sel & ~b2', 'sel'));
    expect(verdictOf(found, 'c')).toMatchObject({ verdict: 'unsound', why: { reason: 'enables-not-guarded' } });
    expect(found.network.crossings.map(({ status }) => status)).toEqual(['bare']);
  });

  it('by a case are multiplexers', async () => {
    const found = await clocksOf(`
      module top(input a, b, c, input [1:0] s, input d, output reg q);
        reg k;
        always @* case (s) 0: k = a; 1: k = b; default: k = c; endcase
        always @(posedge k) q <= d;
      endmodule`);
    expect(found.clocks.k).toBe('switched of a, b, c');
    expect(verdictOf(found, 'k')).toMatchObject({ kind: 'switch', verdict: 'possible' });
    expect(found.registers.q).toBe('k rising, no root, stage 1, k');
  });

  it('of a clock and its inverse, as in an up/down ripple counter, are none', async () => {
    const found = await clocksOf(`
      module top(input clk, up, output reg [1:0] q);
        wire c = up ? q[0] : ~q[0];
        always @(negedge clk) q[0] <= ~q[0];
        always @(negedge c) q[1] <= ~q[1];
      endmodule`);
    expect(found.chains).toEqual(['q[0] > q[1]']);
    expect(found.registers['q[1]']).toBe('c falling, clk falling, stage 2, clk');
  });
});

describe('resets and synchronizers', () => {
  it('a vector shifted through is a synchronizer, cleared or not', async () => {
    const found = await clocksOf(`
      module top(input ca, cb, rst_n, d, output reg rise);
        reg s;
        reg [1:0] y;
        always @(posedge ca) s <= d;
        always @(posedge cb or negedge rst_n) if (!rst_n) y <= 0; else y <= {y[0], s};
        always @(posedge cb) rise <= y[1] & d;
      endmodule`);
    expect(found.network.crossings).toMatchObject([
      { synchronizer: 'two-flop', depth: 2, status: 'protected', throughLogic: false, bits: 1 },
    ]);
  });

  it('an edge detector that reads the first flip-flop undoes it', async () => {
    const found = await clocksOf(`
      module top(input ca, cb, d, output reg rise);
        reg s;
        reg [1:0] y;
        always @(posedge ca) s <= d;
        always @(posedge cb) y <= {y[0], s};
        always @(posedge cb) rise <= y[0] & ~y[1];
      endmodule`);
    expect(found.network.crossings).toMatchObject([{ synchronizer: 'one-flop', depth: 1, status: 'bare' }]);
  });

  it('a reset synchronizer written as a vector', async () => {
    const found = await clocksOf(`
      module top(input clk, rst_n, d, output reg q);
        reg [1:0] r;
        always @(posedge clk or negedge rst_n) if (!rst_n) r <= 0; else r <= {r[0], 1'b1};
        wire ready = r[1];
        always @(posedge clk or negedge ready) if (!ready) q <= 0; else q <= d;
      endmodule`);
    expect(found.network.resets).toMatchObject([
      { name: 'rst_n', kind: 'asynchronous', release: 'synchronized' },
      { name: 'r[1]', kind: 'asynchronous', release: 'synchronized' },
    ]);
    expect(found.register('r[1:0]').selfDriven).toBe(false);
  });

  it('a synchronous reset before an enable, in every register of the process', async () => {
    const found = await clocksOf(`
      module top(input clk, rst, en, d, output reg [3:0] q, output reg f);
        always @(posedge clk)
          if (rst) begin q <= 0; f <= 1; end
          else begin if (en) q <= q + 1; f <= d; end
      endmodule`);
    expect(found.register('q[3:0]')).toMatchObject({
      synchronous: [{ name: 'rst', active: 'high' }],
      enable: { name: 'en', active: 'high' },
    });
    expect(found.register('f')).toMatchObject({ synchronous: [{ name: 'rst' }], enable: null });
  });

  it('a synchronous reset of a register that is otherwise written in parts, or cleared by the last word', async () => {
    const found = await clocksOf(`
      module top(input clk, rst, input [3:0] d, output reg [3:0] q, r);
        always @(posedge clk)
          if (rst) q <= 5;
          else begin q[1:0] <= d[1:0]; q[3:2] <= d[1:0]; end
        always @(posedge clk) begin
          r <= r + d;
          if (rst) r <= 0;
        end
      endmodule`);
    expect(found.register('q[3:0]').synchronous).toMatchObject([{ name: 'rst', active: 'high', digits: '0101' }]);
    expect(found.register('r[3:0]').synchronous).toMatchObject([{ name: 'rst', active: 'high', digits: '0000' }]);
  });

  it('written as a conditional or a comparison is the same reset', async () => {
    const resetsOf = async (condition: string) => {
      const found = await clocksOf(`
        module top(input clk, rst, output reg [3:0] q);
          always @(posedge clk) q <= ${condition} ? 4'd0 : q + 1;
        endmodule`);
      return found.network.resets.map(({ name, active }) => `${name} ${active}`);
    };
    expect(await resetsOf('rst')).toEqual(['rst high']);
    expect(await resetsOf('!rst')).toEqual(['rst low']);
    expect(await resetsOf('(rst == 1)')).toEqual(['rst high']);
    expect(await resetsOf("(rst != 1'b1)")).toEqual(['rst low']);
  });

  it('a synchronizer whose flip-flops are cleared one by one', async () => {
    const found = await clocksOf(`
      module top(input ca, cb, rst, d, output reg [1:0] y);
        reg s;
        always @(posedge ca) s <= d;
        always @(posedge cb) if (rst) y <= 0; else begin y[1] <= y[0]; y[0] <= s; end
      endmodule`);
    expect(found.network.crossings).toMatchObject([{ from: [{ name: 's' }], throughLogic: false, bits: 1 }]);
  });

  it('a count that ends is no reset', async () => {
    const found = await clocksOf(`
      module top(input clk, output reg [3:0] cnt);
        always @(posedge clk) if (cnt == 9) cnt <= 0; else cnt <= cnt + 1;
      endmodule`);
    expect(found.network.resets).toEqual([]);
    expect(found.register('cnt[3:0]').selfDriven).toBe(true);
  });
});

describe('roots', () => {
  it('bits of a vector port are roots of their own', async () => {
    const found = await clocksOf(`
      module top(input [1:0] clk, input d, output reg q, p);
        always @(posedge clk[0]) q <= d;
        always @(negedge clk[1]) p <= d;
      endmodule`);
    expect(found.network.roots.map(({ name }) => name)).toEqual(['clk[0]', 'clk[1]']);
  });

  it('an inout is a shared clock, driven from inside or not', async () => {
    const found = await clocksOf(`
      module top(inout scl, sda, input oe, d, output reg q, p);
        assign scl = oe ? 1'b0 : 1'bz;
        always @(posedge scl) q <= d;
        always @(posedge sda) p <= d;
      endmodule`);
    expect(found.clocks).toEqual({ scl: 'shared', sda: 'shared' });
  });

  it('the output of a module that is not given is a root', async () => {
    const { netlist } = await netlistOf(`
      module top(input ref, d, output reg q);
        wire c;
        pll u(.i(ref), .o(c));
        always @(posedge c) q <= d;
      endmodule`);
    expect(describeClocks(netlist).network.roots).toMatchObject([{ name: 'c', kind: 'blackBox' }]);
  });

  it('a clock that nothing drives is one, too', async () => {
    const { netlist } = await netlistOf(`
      module top(input d, output reg q);
        wire c;
        always @(posedge c) q <= d;
      endmodule`);
    expect(describeClocks(netlist).network.roots).toMatchObject([{ name: 'c', kind: 'undriven' }]);
  });
});

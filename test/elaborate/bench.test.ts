// Test benches run over time. Expected instants are worked out by hand from IEEE 1364-2005 9.7 (delays and event controls),
// 9.6 (loops), 11 (order within an instant); clause numbers from memory.

import { expect, test } from 'vitest';
import type { BenchPort } from '../../server/src/netlist/bench';
import { toBinary } from '../../server/src/netlist/four-state';
import { netlistOf } from '../tools/elaborated';

const tested = `module dut(input clk, rst, input [3:0] d, output reg [3:0] q);
  always @(posedge clk) if (rst) q <= 0; else q <= d;
endmodule
`;

/** Each port as `name: value at 0, value at ns …`; what is not followed as `?`; a cut wave ends with `…`. */
async function portsOf(bench: string): Promise<Record<string, string>> {
  const { elaboration } = await netlistOf(`\`timescale 1ns/1ps\n${tested}${bench}`);
  expect(elaboration.top).toBe('dut');
  return Object.fromEntries((elaboration.bench?.ports ?? []).map((port) => [port.name, waveText(port)]));
}

function waveText({ wave }: BenchPort): string {
  if (wave === null) return '?';
  const changes = wave.changes.map(({ at, value }) => `${at / 1000}:${toBinary(value)}`);
  return [toBinary(wave.start), ...changes, ...(wave.isWhole ? [] : ['…'])].join(' ');
}

test('delays, a task with event controls, a loop over negative edges, the end by $finish', async () => {
  const ports = await portsOf(`module tb;
    reg clk = 0, rst; reg [3:0] d; wire [3:0] q; integer i;
    dut u(.clk(clk), .rst(rst), .d(d), .q(q));
    always #3 clk = ~clk;
    task edges(input integer n); repeat (n) @(posedge clk); endtask
    initial begin
      rst = 1; d = 0;
      #4 rst = 0;
      edges(2);
      for (i = 1; i < 3; i = i + 1) @(negedge clk) d = i;
      $display("done");
      #2 $finish;
    end
  endmodule`);
  // Rises at 3, 9, 15, 21; falls at 6, 12, 18, 24. Two rises after 4: 9 and 15; the falls after them: 18 and 24.
  expect(ports.clk).toBe('0 3:1 6:0 9:1 12:0 15:1 18:0 21:1 24:0');
  expect(ports.rst).toBe('1 4:0');
  expect(ports.d).toBe('0000 18:0001 24:0010');
});

test('an expression at the port, a net between, a parameter of the bench, a fraction of the unit', async () => {
  const ports = await portsOf(`module tb;
    parameter real HALF = 2.5;
    reg osc = 1, rst_n = 0; wire rst = ~rst_n; wire c; assign c = osc;
    initial repeat (3) #HALF osc = ~osc;
    initial #(2 * HALF) rst_n = 1;
    dut u(c, rst, {2'b10, rst_n, 1'b1}, );
  endmodule`);
  expect(ports).toEqual({ clk: '1 2.5:0 5:1 7.5:0', rst: '1 5:0', d: '1001 5:1011' });
});

test('what depends on the tested module is not followed; what does not is', async () => {
  const ports = await portsOf(`module tb;
    reg clk = 0, rst = 1; reg [3:0] d = 0; wire [3:0] q; integer errors = 0;
    dut u(clk, rst, d, q);
    initial repeat (4) #5 clk = ~clk;
    initial begin #7 if (q !== 0) errors = errors + 1; rst = 0; end
    initial begin #1 wait (q == 3) d = 1; end
  endmodule`);
  expect(ports).toEqual({ clk: '0 5:1 10:0 15:1 20:0', rst: '1 7:0', d: '?' });
});

test('a branch on what the tested module does loses what it assigns, and all after it where it takes time', async () => {
  const ports = await portsOf(`module tb;
    reg clk = 0, rst = 1; reg [3:0] d = 0; wire [3:0] q;
    dut u(clk, rst, d, q);
    initial begin #1 if (q[0]) d = 1; else d = 2; #1 rst = 0; end
    initial begin #1 if (q[0]) #1 clk = 1; clk = 0; end
  endmodule`);
  expect(ports).toEqual({ clk: '?', rst: '1 2:0', d: '?' });
});

test('what was lost and is written again is lost all the same: nobody knows what stood between', async () => {
  const ports = await portsOf(`module tb;
    reg clk = 0, rst = 1; reg [3:0] d = 0; wire [3:0] q;
    dut u(clk, rst, d, q);
    initial begin #1 d = q; #1 d = 3; end
  endmodule`);
  expect(ports.d).toBe('?');
});

test('nonblocking assignments come last in their instant', async () => {
  const ports = await portsOf(`module tb;
    reg clk = 0, rst = 0; reg [3:0] d = 1, e = 2;
    dut u(clk, rst, d, );
    initial repeat (2) #5 clk = ~clk;
    always @(posedge clk) begin d <= e; e <= d; end
    always @(negedge clk) d = e;
  endmodule`);
  expect(ports.d).toBe('0001 5:0010 10:0001');
});

test('an endless clock is cut, and says so; a process without time ends', async () => {
  const ports = await portsOf(`module tb;
    reg clk, rst = 0; reg [3:0] d = 0;
    dut u(clk, rst, d, );
    initial begin clk = 0; forever #5 clk = ~clk; end
    always rst = ~rst;
  endmodule`);
  expect(ports.clk).toMatch(/^0 5:1 10:0 .*…$/);
  expect(ports.rst).toBe('?');
});

test('the standard’s posedge: toward 1, from and to x as well', async () => {
  const ports = await portsOf(`module tb;
    reg level, clk = 0, rst = 0; reg [3:0] d = 0;
    dut u(clk, rst, d, );
    initial begin #1 level = 0; #1 level = 1'bx; #1 level = 1; #1 level = 1'bz; #1 level = 0; end
    always @(posedge level) d = d + 1;
    always @(negedge level) clk = ~clk;
  endmodule`);
  // posedge: 0 to x at 2, x to 1 at 3. negedge: x to 0 at 1, 1 to z at 4, z to 0 at 5 (table 9-1).
  expect(ports.d).toBe('0000 2:0001 3:0010');
  expect(ports.clk).toBe('0 1:1 4:0 5:1');
});

test('without a bench, or with one for another module, nothing is told', async () => {
  const { elaboration } = await netlistOf(
    `${tested} module other(input a); endmodule module tb; reg a = 0; other u(a); endmodule`,
  );
  expect(elaboration.bench).toBeNull();
});

test('a bench that never gets past an instant tells nothing of it', async () => {
  const ports = await portsOf(`module tb;
    reg a = 0, b = 0, clk = 0, rst = 0; reg [3:0] d = 0;
    dut u(clk, rst, d, );
    always @(a) #0 b = ~b;
    always @(b) #0 a = ~a;
    initial #1 a = 1;
    initial while (1) d = d + 1;
  endmodule`);
  expect(ports).toEqual({ clk: '?', rst: '?', d: '?' });
});

test('statements side by side: over when the last is, and lost where one is', async () => {
  const ports = await portsOf(`module tb;
    reg clk = 0, rst = 0; reg [3:0] d = 0; wire [3:0] q;
    dut u(clk, rst, d, q);
    initial begin fork #5 clk = 1; #2 rst = 1; join d = 1; end
    initial begin #20 fork #1 d = 2; if (q) #1 d = 3; join rst = 0; end
  endmodule`);
  expect(ports).toEqual({ clk: '0 5:1', rst: '?', d: '?' });
});

test('through an interface: its clock, what the bench assigns in it, what the tested module gives back', async () => {
  const { elaboration, complaints } = await netlistOf(`\`timescale 1ns/1ps
interface bus(input logic clk); logic req, ack; logic [3:0] data; modport target(input clk, req, data, output ack); endinterface
module dut(bus.target b); always @(posedge b.clk) b.ack <= b.req; endmodule
module tb;
  logic clk = 0;
  bus b(.clk(clk));
  dut u(.b(b));
  always #5 clk = ~clk;
  initial begin b.req = 0; b.data = 3; #12 b.req = 1; wait (b.ack) b.data = 4; #20 $finish; end
endmodule`);
  expect(complaints).toEqual([]);
  expect(elaboration.top).toBe('dut');
  const ports = Object.fromEntries((elaboration.bench?.ports ?? []).map((port) => [port.name, waveText(port)]));
  const { 'b.clk': clock, ...others } = ports;
  expect(clock).toMatch(/^0 5:1 10:0 15:1 /);
  // The bench waits for what the tested module gives back before it moves the data.
  expect(others).toEqual({ 'b.req': '0 12:1', 'b.data': '?' });
});

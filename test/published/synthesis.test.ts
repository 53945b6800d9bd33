// IEEE 1364.1-2002 (from memory; a free extract was seen for some rows): what a process is read as.

import { expect } from 'vitest';
import { reportOf } from '../tools/report-of';
import { published } from './published';

const of = (body: string, ports = 'input clk, rst, en, d, output reg q') =>
  reportOf([{ path: 'm.v', text: `module m(${ports}); ${body} endmodule` }]);
const ids = async (body: string, ports?: string) => (await of(body, ports)).findings.map(({ id }) => id);

published('SYN-1', 'one edge: a register of that edge', async () => {
  for (const [word, edge] of [
    ['posedge', 'rising'],
    ['negedge', 'falling'],
  ]) {
    const { latches, registers } = await of(`always @(${word} clk) q <= d;`);
    expect(registers.map(({ clock }) => [clock.signal, clock.edge])).toEqual([['clk', edge]]);
    expect(latches).toEqual([]);
  }
});

published('SYN-2', 'several edges: those that are tested set and clear, the other is the clock', async () => {
  const body = `always @(posedge rst or negedge en or posedge clk)
    if (rst) q <= 0; else if (!en) q <= 1; else q <= d;`;
  const [register] = (await of(body)).registers;
  expect(register.clock).toMatchObject({ signal: 'clk', edge: 'rising' });
  expect(register.asynchronous.map(({ active, signal, value }) => [signal, active, value])).toEqual([
    ['rst', 'high', '0'],
    ['en', 'low', '1'],
  ]);
});

published('SYN-3', 'an edge and a test that do not fit', async () => {
  expect(await ids('always @(posedge clk or negedge rst) if (rst) q <= 0; else q <= d;')).toContain('unsupported');
});

published('SYN-4', 'one edge, a reset tested inside: synchronous', async () => {
  const [register] = (await of('always @(posedge clk) if (rst) q <= 0; else q <= d;')).registers;
  expect(register.asynchronous).toEqual([]);
  expect(register.synchronous.map(({ signal }) => signal)).toEqual(['rst']);
});

published('SYN-5', 'levels, and a way on which nothing is assigned: a latch', async () => {
  const { latches, registers } = await of('always @* if (en) q = d;');
  expect([latches.map(({ name }) => name), registers]).toEqual([['q'], []]);
});

published('SYN-6', 'levels, every way assigned: logic', async () => {
  const { latches, registers } = await of('always @* if (en) q = d; else q = rst;');
  expect([latches, registers]).toEqual([[], []]);
});

published('SYN-7', 'edges and levels in one list', async () => {
  expect(await ids('always @(posedge clk or en) q <= d;')).toContain('unsupported');
});

published('SYN-9', 'force and release', async () => {
  expect(await ids('initial force q = 0; always @(posedge clk) q <= d;')).toContain('unsupported');
});

published('SYN-10', 'conditions, concatenations, event lists, selects, three-valued constants', async () => {
  const body = `always @(posedge clk or posedge rst)
    if (rst) q <= 2'b00; else q <= en ? {d, q[1]} : (1:2:3);`;
  const { findings, registers } = await of(body, 'input clk, rst, en, d, output reg [1:0] q');
  // The port's release is told; nothing of what stands in the process is.
  expect(findings.map(({ id }) => id)).toEqual(['reset-release']);
  expect(registers.map(({ signal }) => signal)).toEqual(['q']);
});

published('SYN-11', 'equality of levels that are not known', async () => {
  expect(await ids("always @(posedge clk) q <= (d === 1'bx);")).toContain('unsupported');
});

published('SYN-8', 'delays, start values and output tasks are used or passed over; strengths are said', async () => {
  const delayed = await of('always @(posedge clk) q <= #3 d;');
  expect(delayed.registers[0].settles).toMatchObject({ min: 3_000, typ: 3_000, max: 3_000 });
  const started = await of('initial begin q = 1; $display("%b", q); end always @(posedge clk) q <= d;');
  expect([started.registers[0].startFrom, started.findings]).toEqual(['text', []]);
  expect(await ids('assign (strong1, weak0) y = d;', 'input d, output y')).toEqual(['unsupported']);
  expect(await ids('reg r; always @* #2 r = d; assign y = r;', 'input d, output y')).toEqual(['unsupported']);
});

published(
  'SEN-2',
  'temporaries that are assigned and then read belong to the list; leaving them out changes no circuit',
  async () => {
    const block = (list: string) => `reg tmp1, tmp2;
    always @${list} begin tmp1 = rst & en; tmp2 = d | en; q = tmp1 ^ tmp2; end`;
    const ports = 'input rst, en, d, output reg q';
    for (const list of ['*', '(rst or en or d or tmp1 or tmp2)', '(rst or en or d)']) {
      const { findings, latches, outputs, registers } = await of(block(list), ports);
      expect([list, findings, latches, registers]).toEqual([list, [], [], []]);
      expect(outputs.map(({ form }) => form)).toEqual(['through']);
    }
    expect(await ids(block('(rst or d)'), ports)).toEqual(['stale-sensitivity']);
  },
);

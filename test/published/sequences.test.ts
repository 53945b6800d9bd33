// Codes, rings and shift registers, and a ripple part whose directions differ: sequences and settling as the report has
// them.

import { expect } from 'vitest';
import { reportOf } from '../tools/report-of';
import { published } from './published';

const run = (text: string, project?: object) =>
  reportOf([{ path: 'm.v', text }], project === undefined ? {} : { project: JSON.stringify(project) });

/** A register of `width` bits that starts at `start` and takes `next` at every rising edge. */
const stepping = (width: number, start: string, next: string) => `module m(input clk, output reg [${width - 1}:0] q);
  initial q = ${start};
  always @(posedge clk) q <= ${next};
endmodule`;

async function counted(width: number, start: string, next: string) {
  return (await run(stepping(width, start, next))).counts[0];
}

published('TB-9', 'duties of a decade counter', async () => {
  const { registers } = await run(stepping(4, "4'd0", "(q == 9) ? 4'd0 : q + 4'd1"));
  expect([...(registers[0].bitDuties ?? [])].reverse()).toEqual(['1/2', '2/5', '2/5', '1/5']);
});

published('TB-11', 'the Gray code of four bits', async () => {
  const text = `module m(input clk, output reg [3:0] g);
    reg [3:0] n;
    wire [3:0] next = n + 4'd1;
    initial {n, g} = 0;
    always @(posedge clk) n <= next;
    always @(posedge clk) g <= next ^ (next >> 1);
  endmodule`;
  const count = (await run(text)).counts.find(({ registers }) => registers.includes('g[3:0]'));
  const values = [0, 1, 3, 2, 6, 7, 5, 4, 12, 13, 15, 14, 10, 11, 9, 8].map(String);
  expect(count).toMatchObject({ kind: 'gray', period: 16, values });
});

const numbers = (digits: readonly string[]) => digits.map((one) => String(Number.parseInt(one, 2)));

published(['TB-12', 'TB-13'], 'the four-bit Johnson counter and the cycle that it does not use', async () => {
  const used = numbers(['0000', '1000', '1100', '1110', '1111', '0111', '0011', '0001']);
  const count = await counted(4, "4'd0", '{~q[0], q[3:1]}');
  expect(count).toMatchObject({ kind: 'johnson', period: 8, values: used });
  const unused = numbers(['0010', '1001', '0100', '1010', '1101', '0110', '1011', '0101']);
  expect([...count.trapped].sort()).toEqual([...unused].sort());
  expect((await counted(4, "4'b0010", '{~q[0], q[3:1]}')).values).toEqual(unused);
});

published('TB-14', 'the four-bit ring, and what can never get back into it', async () => {
  const count = await counted(4, "4'b1000", '{q[0], q[3:1]}');
  expect(count).toMatchObject({ kind: 'ring', period: 4, values: numbers(['1000', '0100', '0010', '0001']) });
  expect(count.trapped).toHaveLength(12);
});

published('TB-15', 'the three-bit Johnson counter', async () => {
  const values = numbers(['000', '100', '110', '111', '011', '001']);
  const { counts, registers } = await run(stepping(3, "3'd0", '{~q[0], q[2:1]}'));
  expect(counts[0]).toMatchObject({ kind: 'johnson', period: 6, values });
  expect([...counts[0].trapped].sort()).toEqual(numbers(['010', '101']).sort());
  expect(registers[0].bitRatios).toEqual(['6/1', '6/1', '6/1']);
  expect(registers[0].bitDuties).toEqual(['1/2', '1/2', '1/2']);
});

published('TB-16', 'bit 1 of a count 0, 1, 2 is high a third of the time', async () => {
  const { registers } = await run(stepping(2, "2'd0", "(q == 2) ? 2'd0 : q + 2'd1"));
  expect(registers[0].bitDuties?.[0]).toBe('1/3');
});

published('FUN-11', 'four stages, taps 4 and 3, from 1111', async () => {
  const values = [15, 14, 12, 8, 1, 2, 4, 9, 3, 6, 13, 10, 5, 11, 7].map(String);
  expect(await counted(4, "4'd15", '{q[2:0], q[3] ^ q[2]}')).toMatchObject({ kind: 'lfsr', period: 15, values });
});

published('FUN-12', 'the same with XNOR from 0000; 1111 is the lock-up state', async () => {
  const values = [0, 1, 3, 7, 14, 13, 11, 6, 12, 9, 2, 5, 10, 4, 8].map(String);
  const count = await counted(4, "4'd0", '{q[2:0], q[3] ~^ q[2]}');
  expect(count).toMatchObject({ period: 15, values });
  expect(count.trapped).toEqual(['15']);
});

published('FUN-15', 'all zeros with XOR feedback stays for ever', async () => {
  expect(await counted(4, "4'd0", '{q[2:0], q[3] ^ q[2]}')).toMatchObject({ period: 1, values: ['0'] });
});

/** HEF4024B, ns: clock to first output and output to next, rise and fall; typical and maximum at 5, 10 and 15 V. */
const hef4024b = {
  typical: [
    { first: { rise: 105, fall: 100 }, next: { rise: 50, fall: 60 }, wrap: 460 },
    { first: { rise: 45, fall: 40 }, next: { rise: 20, fall: 25 }, wrap: 190 },
    { first: { rise: 30, fall: 25 }, next: { rise: 15, fall: 20 }, wrap: 145 },
  ],
  maximum: [
    { first: { rise: 210, fall: 200 }, next: { rise: 100, fall: 120 }, wrap: 920 },
    { first: { rise: 85, fall: 75 }, next: { rise: 40, fall: 50 }, wrap: 375 },
    { first: { rise: 60, fall: 50 }, next: { rise: 30, fall: 40 }, wrap: 290 },
  ],
} as const;

published(['DS-6', 'DS-7'], 'the wrap of seven stages settles last, direction by direction', async () => {
  const stages = Array.from({ length: 6 }, (_, i) => `always @(negedge q[${i}]) q[${i + 1}] <= ~q[${i + 1}];`);
  const text = `module m(input clk, output reg [6:0] q);
    initial q = 0;
    always @(negedge clk) q[0] <= ~q[0];
    ${stages.join('\n')}
  endmodule`;
  for (const { first, next, wrap } of [...hef4024b.typical, ...hef4024b.maximum]) {
    const ps = ({ rise, fall }: { rise: number; fall: number }) => ({ rise: rise * 1000, fall: fall * 1000 });
    const set = { sheet: 'HEF4024B, January 1995', clockToQ: { first: ps(first), next: ps(next) }, stagesPerPart: 7 };
    const { chains } = await run(text, { delays: 'part', delaySets: { part: set } });
    expect(chains[0].settle?.typ).toBe(wrap * 1000);
    expect(chains[0].worst).toEqual({ from: '127', to: '0' });
  }
});

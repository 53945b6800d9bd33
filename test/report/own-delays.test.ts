// Delays stated for single instances and signals, from `foretick.json` to every number that they change. The circuits
// are ripples, whose settling is a sum that can be added up by hand (Floyd, Digital Fundamentals, Example 9-1: the
// clock-to-output delays of the stages on the way).
import { describe, expect, it } from 'vitest';
import { writeText } from '../../server/src/report/write-text';
import { reportOf, studyOf, toEnd, valueAt, wavesOf } from '../tools/report-of';

const ripple = [
  {
    path: 'ripple.v',
    text: `module ripple(input clk, output reg [3:0] q, output zero);
  initial q = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];
  always @(negedge q[1]) q[2] <= ~q[2];
  always @(negedge q[2]) q[3] <= ~q[3];
  assign zero = ~|q;
endmodule
`,
  },
];

const twins = [
  {
    path: 'twins.v',
    text: `module stage(input clk, d, output reg q);
  always @(posedge clk) q <= d;
endmodule
module twins(input clk, d, output a, b, y);
  stage u1(.clk(clk), .d(d), .q(a));
  stage u2(.clk(clk), .d(~a), .q(b));
  assign y = a & b;
endmodule
`,
  },
];

function project(content: object): string {
  return JSON.stringify(content);
}

function ownDelays(overrides: object, more: object = {}): { readonly project: string } {
  return { project: project({ overrides, ...more }) };
}

describe('delays of one bit of a ripple', () => {
  const options = ownDelays({ 'q[1]': { clockToQ: { first: [4000, 5000, 6000] } } });

  it('are in the settling of its chain and in what follows from it', async () => {
    const { chains, registers } = await reportOf(ripple, options);
    // 1 + 5 + 1 + 1 ns with the unit set's 1 ns for the others; one stage of spread.
    expect(chains[0]).toMatchObject({ settle: { min: 7000, typ: 8000, max: 9000 }, skew: { min: 6000, max: 8000 } });
    expect(chains[0].maxClockHz).toBeCloseTo(1e12 / 9000, 3);
    expect(registers.map(({ settles }) => settles?.typ)).toEqual([1000, 6000, 7000, 8000]);
    expect(registers[2].arrival).toEqual({ min: 5000, typ: 6000, max: 7000 });
  });

  it('are in the waves and in their accounts', async () => {
    // The fourth falling edge, at 80 ns: q[1] answers after 1 + 5 ns, q[2] a ns later.
    expect(await valueAt(ripple, 'q', 85_999, options)).toBe('0010');
    expect(await valueAt(ripple, 'q', 86_000, options)).toBe('0000');
    expect(await valueAt(ripple, 'q', 87_000, options)).toBe('0100');
    const [account] = toEnd((await studyOf(ripple, options)).accounts('q[2]', 87_000)) ?? [];
    expect(JSON.stringify(account)).toContain('86000');
  });

  it('are in the readings passed on the way and in the glitches', async () => {
    const { counts, glitches } = await reportOf(ripple, options);
    expect(counts[0].steps.find(({ from }) => from === '3')?.passes).toEqual([
      { at: 1000, value: '2' },
      { at: 6000, value: '0' },
    ]);
    const [plain] = (await reportOf(ripple)).glitches;
    const pulses = (of: typeof glitches) =>
      of.find(({ signal }) => signal === 'zero')?.transitions.map(({ pulse }) => pulse.typ);
    expect(pulses([plain])).toEqual([1000, 1000, 1000]);
    // From 1 to 2 all are 0 from q[0]'s fall at 1 ns until q[1] rises at 6; on the others a stage of 1 ns ends it.
    expect(pulses(glitches)).toEqual([5000, 1000, 1000]);
  });

  it('lengthen the pulse that the slow stage ends', async () => {
    const slow = await reportOf(ripple, ownDelays({ 'q[2]': { clockToQ: { first: 5000 } } }));
    const zero = slow.glitches.find(({ signal }) => signal === 'zero');
    expect(zero?.transitions.find(({ from }) => from === '3')?.pulse).toEqual({ min: 5000, typ: 5000, max: 5000 });
  });

  it('are told where delays are listed', async () => {
    const report = await reportOf(ripple, options);
    expect(report.delaySet).toMatchObject({
      name: 'unit',
      spread: true,
      overrides: [{ name: 'q[1]', entries: ['clockToQ'], registers: 1, latches: 0 }],
    });
    expect(writeText(report)).toContain('delays of q[1]: its own clockToQ (1 register)');
    expect(report.assumptions.filter(({ source }) => source === 'given')).toEqual([]);
    expect((await reportOf(ripple)).delaySet).toMatchObject({ spread: false, overrides: [] });
  });
});

describe('delays of an instance', () => {
  it('are those of all in it, and of nothing beside it', async () => {
    const { registers, delaySet } = await reportOf(twins, ownDelays({ u2: { clockToQ: { first: 7000 } } }));
    expect(registers.map(({ name, settles }) => [name, settles?.typ])).toEqual([
      ['u1.q', 1000],
      ['u2.q', 7000],
    ]);
    expect(delaySet.overrides).toMatchObject([{ name: 'u2', registers: 1, operators: 0 }]);
  });

  it('give way to those of a signal in it; what neither states is the set’s', async () => {
    const overrides = { 'u2.q': { clockToQ: { first: 3000 } }, u2: { clockToQ: { first: 7000 }, setup: 2000 } };
    const { registers, delaySet } = await reportOf(twins, ownDelays(overrides));
    expect(registers.map(({ settles }) => settles?.typ)).toEqual([1000, 3000]);
    expect(delaySet.overrides.map(({ entries, name }) => [name, entries])).toEqual([
      ['u2.q', ['clockToQ']],
      ['u2', ['clockToQ', 'setup']],
    ]);
  });

  it('are not those of an expression in its port, which stands outside', async () => {
    const slow = { logic: { inverter: 4000, gate: 4000 } };
    const inside = await reportOf(twins, ownDelays({ u2: slow }));
    expect(inside.delaySet.overrides).toMatchObject([{ name: 'u2', operators: 0 }]);
    const named = await reportOf(twins, ownDelays({ 'u2.d': slow }));
    expect(named.delaySet.overrides).toMatchObject([{ name: 'u2.d', operators: 1 }]);
  });
});

describe('delays of a signal that logic drives', () => {
  it('are those of its operators', async () => {
    const options = ownDelays({ y: { logic: { gate: { rise: 2000, fall: 3000 } } } });
    const wave = await wavesOf(twins, 60_000, {
      project: project({ ...JSON.parse(options.project), inputs: { d: 1 } }),
    });
    // The first edge at 10 ns sets both outputs at 11 ns, y follows 2 ns later; the second clears b, y falls 3 ns later.
    expect(wave('y').changes).toEqual([
      { at: 13_000, value: '1' },
      { at: 34_000, value: '0' },
    ]);
  });
});

describe('setup of one register', () => {
  it('spoils its sample and no other', async () => {
    const files = [
      {
        path: 'half.v',
        text: `module half(input clk, output reg a, b, c);
  initial {a, b, c} = 0;
  always @(negedge clk) a <= ~a;
  always @(posedge clk) b <= a;
  always @(posedge clk) c <= a;
endmodule
`,
      },
    ];
    // a moves 1 ns after the falling edge, 9 ns before the rising one.
    const wave = await wavesOf(files, 60_000, ownDelays({ c: { setup: 9500 } }));
    expect([wave('b').at(40_000), wave('c').at(40_000)]).toEqual(['1', 'x']);
    const enough = await wavesOf(files, 60_000, ownDelays({ c: { setup: 9000 } }));
    expect(enough('c').at(40_000)).toBe('1');
  });
});

describe('what cannot be followed', () => {
  it('is said, each with its reason', async () => {
    const text = `module four(input clk, input [3:0] d, output reg [3:0] q, output reg r);
  always @(posedge clk) q <= d;
  always @(posedge clk) r <= #2 d[0];
endmodule
`;
    const first = { clockToQ: { first: 5000 } };
    const report = await reportOf(
      [{ path: 'four.v', text }],
      ownDelays({ none: first, 'q[1]': first, r: first, d: first }),
    );
    const given = report.assumptions.filter(({ source }) => source === 'given').map(({ reason }) => reason);
    expect(given).toEqual([
      'overrides in foretick.json names none, which is no instance or signal of this design',
      'overrides of q[1] in foretick.json means a part of q[3:0], whose bits take one delay together: not followed',
      'overrides of r in foretick.json does not change r, whose delay stands in the text',
      'overrides of d in foretick.json meets nothing that takes time',
    ]);
    expect(report.registers.map(({ settles }) => settles?.typ)).toEqual([1000, 2000]);
  });

  it('is refused where it is no delay', async () => {
    const wrong = ownDelays({ q: { clockToQ: { first: [3, 2, 1] } } });
    await expect(studyOf(ripple, wrong)).rejects.toThrow(
      'overrides of q: clockToQ.first must rise from min over typ to max',
    );
    await expect(studyOf(ripple, ownDelays({ q: { speed: 3 } }))).rejects.toThrow(
      'overrides.q.speed is not a known key',
    );
  });
});

describe('what a delay set leaves open', () => {
  const open = async (files: typeof ripple, more: object = {}) => {
    const { assumptions } = await reportOf(files, { project: project(more) });
    return assumptions.filter(({ about }) => about === 'delays').map(({ reason, value }) => `${value}: ${reason}`);
  };

  it('is said, as far as the design has a use for it', async () => {
    expect(await open(ripple)).toEqual(['0 ns: delay set unit does not state logic, setup and hold: taken as 0']);
    const cleared = `module cleared(input clk, rst, output reg q);
  always @(posedge clk or posedge rst) if (rst) q <= 0; else q <= q;
endmodule
`;
    expect(await open([{ path: 'cleared.v', text: cleared }], { delays: '74HC4040' })).toEqual([
      '0 ns: delay set 74HC4040 does not state clear, setup, hold, recovery and removal: taken as 0',
    ]);
  });

  it('is not said of what the text states for every register, but that it does', async () => {
    const cell = `module cell_(input c, d, output reg q);
  always @(posedge c) q <= d;
  specify (posedge c => (q +: d)) = 2; $setup(d, posedge c, 1); $hold(posedge c, d, 1); endspecify
endmodule
`;
    const { assumptions } = await reportOf([{ path: 'cell.v', text: cell }], {});
    const delays = assumptions
      .filter(({ about }) => about === 'delays')
      .map(({ source, value }) => `${source} ${value}`);
    expect(delays).toEqual(['text specify']);
    expect(assumptions.find(({ value }) => value === 'specify')?.reason).toMatch(
      /1 register and 0 outputs, and 2 timing checks/,
    );
  });

  it('is not said where everything is stated', async () => {
    const whole = { clockToQ: { first: 5 }, logic: {}, setup: 0, hold: 0 };
    expect(await open(ripple, { delays: 'whole', delaySets: { whole } })).toEqual([]);
  });
});

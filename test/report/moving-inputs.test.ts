// Inputs that move, from `foretick.json` to waves, sequences and the report. Times are placed by hand against the clock of
// the drive: 20 ns, first rise at 10 ns, flip-flops of 1 ns.
import { describe, expect, it } from 'vitest';
import { writeText } from '../../server/src/report/write-text';
import { reportOf, studyOf, toEnd, wavesOf } from '../tools/report-of';

const counter = [
  {
    path: 'counter.v',
    text: `module counter(input clk, en, output reg [3:0] n);
  initial n = 0;
  always @(posedge clk) if (en) n <= n + 1;
endmodule
`,
  },
];

const pushed = [
  {
    path: 'pushed.v',
    text: `module pushed(input key, output reg [3:0] n);
  initial n = 0;
  always @(posedge key) n <= n + 1;
endmodule
`,
  },
];

const cleared = [
  {
    path: 'cleared.v',
    text: `module cleared(input clk, rst, output reg [2:0] n);
  always @(posedge clk or posedge rst) if (rst) n <= 0; else n <= n + 1;
endmodule
`,
  },
];

const stated = (inputs: object, more: object = {}) => ({ project: JSON.stringify({ inputs, ...more }) });

describe('a pulse on an enable', () => {
  const options = stated({ en: { pulse: { atPs: 35_000, widthPs: 40_000 } } });

  it('lets the counter count while it lasts', async () => {
    const wave = await wavesOf(counter, 200_000, options);
    expect(wave('en').changes).toEqual([
      { at: 35_000, value: '1' },
      { at: 75_000, value: '0' },
    ]);
    // Rising edges at 50 and 70 ns are inside it.
    expect(wave('n').changes).toEqual([
      { at: 51_000, value: '0001' },
      { at: 71_000, value: '0010' },
    ]);
  });

  it('is where its account ends', async () => {
    const study = await studyOf(counter, options);
    expect(JSON.stringify(toEnd(study.accounts('en', 35_000)))).toContain('"drive"');
  });

  it('is in the drive of the report, and the sequence is the one after it', async () => {
    const report = await reportOf(counter, options);
    expect(report.drive.inputs).toEqual([
      {
        signal: 'en',
        value: '0',
        source: 'given',
        moves: {
          changes: [
            { at: 35_000, value: '1' },
            { at: 75_000, value: '0' },
          ],
          changesTotal: 2,
          everyPs: null,
        },
      },
    ]);
    expect(writeText(report)).toContain('0 at first, 1 at 35 ns, 0 at 75 ns');
    expect(report.counts[0]).toMatchObject({ start: '2', values: ['2'], while: [{ signal: 'en', value: '0' }] });
    expect(report.assumptions.some(({ about }) => about === 'en')).toBe(false);
  });

  it('that comes again leaves no sequence, and says why', async () => {
    const again = stated({ en: { pulse: { atPs: 35_000, widthPs: 20_000, everyPs: 80_000 } } });
    const report = await reportOf(counter, again);
    expect(report.counts[0]).toMatchObject({
      period: null,
      why: 'en does not come to rest: it moves again and again, as stated',
    });
    expect(report.registers[0].ratio).toBe(null);
    expect(writeText(report)).toContain('0 at first, 1 at 35 ns, 0 at 55 ns, all again every 80 ns');
    const wave = await wavesOf(counter, 300_000, again);
    // One edge in each pulse: at 50, 130, 210 and 290 ns.
    expect(wave('n').changes.map(({ at }) => at)).toEqual([51_000, 131_000, 211_000, 291_000]);
  });
});

describe('levels over time', () => {
  it('are followed, and the sequence begins when the last is reached', async () => {
    const options = stated({
      en: {
        levels: [
          { atPs: 0, value: 1 },
          { atPs: 55_000, value: 0 },
          { atPs: 95_000, value: "1'b1" },
        ],
      },
    });
    const wave = await wavesOf(counter, 140_000, options);
    expect(wave('n').changes.map(({ at, value }) => `${Number.parseInt(value, 2)} ${at / 1000}`)).toEqual([
      '1 11',
      '2 31',
      '3 51',
      '4 111',
      '5 131',
    ]);
    const { counts } = await reportOf(counter, options);
    expect(counts[0]).toMatchObject({ start: '3', period: 16, kind: 'up', while: [{ signal: 'en', value: '1' }] });
  });

  it('at the instant of an edge are a race, not a guess', async () => {
    const options = stated({
      en: {
        levels: [
          { atPs: 0, value: 0 },
          { atPs: 50_000, value: 1 },
        ],
      },
    });
    const wave = await wavesOf(counter, 60_000, options);
    expect(wave('n').at(55_000)).toBe('000x');
  });

  it('too late to be waited for leave no sequence', async () => {
    const options = stated({
      en: {
        levels: [
          { atPs: 0, value: 0 },
          { atPs: 90_000_000_000, value: 1 },
        ],
      },
    });
    const { counts } = await reportOf(counter, { ...options, limits: { period: 1000 } });
    expect(counts[0].why).toBe('the drive comes to rest only after 1000 periods (limits.period)');
  });

  it('are drawn to their end', async () => {
    const options = stated({
      en: {
        levels: [
          { atPs: 0, value: 0 },
          { atPs: 2_005_000, value: 1 },
        ],
      },
    });
    const preview = toEnd((await studyOf(counter, options)).preview());
    expect(preview.end).toBeGreaterThan(2_300_000);
    expect(preview.traces.find(({ name }) => name === 'en')?.changes.at).toEqual([2_005_000]);
  });
});

describe('a button that clocks a counter', () => {
  it('counts every time its contact closes', async () => {
    const wave = await wavesOf(
      pushed,
      1_000_000,
      stated({ key: { button: { pressPs: 100_000, releasePs: 500_000, bouncePs: 60_000, bounces: 3 } } }),
    );
    // Pressed and three times opened again: four rises. Released and closed again three times: three more.
    expect(wave('n').at(400_000)).toBe('0100');
    expect(wave('n').at(999_000)).toBe('0111');
  });

  it('counts once where it does not bounce', async () => {
    const wave = await wavesOf(
      pushed,
      1_000_000,
      stated({ key: { button: { pressPs: 100_000, releasePs: 500_000 } } }),
    );
    expect(wave('n').changes).toEqual([{ at: 101_000, value: '0001' }]);
  });

  it('is no clock of the drive, and so no sequence is told', async () => {
    const report = await reportOf(pushed, stated({ key: { button: { pressPs: 100_000 } } }));
    expect(report.drive.clocks).toEqual([]);
    expect(report.counts[0].why).toBe('key is not driven as a clock');
  });
});

describe('a reset stated as an input', () => {
  it('is driven as one', async () => {
    const inputs = {
      rst: {
        levels: [
          { atPs: 0, value: 0 },
          { atPs: 45_000, value: 1 },
          { atPs: 65_000, value: 0 },
        ],
      },
    };
    const wave = await wavesOf(cleared, 100_000, stated(inputs));
    expect(wave('n').changes.map(({ at, value }) => `${value} ${at / 1000}`)).toEqual([
      '001 11',
      '010 31',
      '000 46',
      '001 71',
      '010 91',
    ]);
    expect((await reportOf(cleared, stated(inputs))).drive.resets).toEqual([]);
  });

  it('and as a reset too is driven as a reset, and this is said', async () => {
    const report = await reportOf(cleared, stated({ rst: 0 }, { resets: { rst: { active: 'high', periods: 2 } } }));
    expect(report.drive.resets).toHaveLength(1);
    expect(report.assumptions.find(({ about }) => about === 'rst')?.reason).toBe(
      'inputs in foretick.json states rst, which clocks or resets there drives already: not followed',
    );
  });
});

describe('what a shape must be', () => {
  it.each([
    [{ levels: [{ atPs: 5, value: 0 }] }, 'inputs.en.levels must begin at 0'],
    [{ levels: [] }, 'inputs.en.levels must begin at 0'],
    [
      {
        levels: [
          { atPs: 0, value: 0 },
          { atPs: 9, value: 1 },
          { atPs: 9, value: 0 },
        ],
      },
      'inputs.en.levels[2].atPs must be later than the one before',
    ],
    [
      {
        levels: [
          { atPs: 0, value: 0 },
          { atPs: 9, value: 1 },
        ],
        everyPs: 9,
      },
      'inputs.en.everyPs must be later than',
    ],
    [{ pulse: { atPs: 5, widthPs: 9, everyPs: 9 } }, 'inputs.en.pulse.everyPs must be more than widthPs'],
    [{ pulse: { atPs: 5, width: 9 } }, 'inputs.en.pulse.widthPs is missing; inputs.en.pulse.width is not a known key'],
    [{ button: { pressPs: 5, releasePs: 9, bouncePs: 8 } }, 'inputs.en.button.releasePs must be later than'],
    [{ button: { pressPs: 5, bouncePs: 3 } }, 'inputs.en.button.bouncePs must be at least 2 for each bounce'],
    [true, 'inputs.en must be'],
  ])('%j is refused', async (shape, words) => {
    await expect(studyOf(counter, stated({ en: shape }))).rejects.toThrow(words);
  });

  it('a value that does not fit is said, and the input assumed', async () => {
    const report = await reportOf(counter, stated({ en: { levels: [{ atPs: 0, value: 2 }] } }));
    expect(report.assumptions.find(({ source, about }) => source === 'given' && about === 'en')?.reason).toBe(
      '2 is no value of 1 bit for en',
    );
    expect(report.drive.inputs[0]).toMatchObject({ value: '1', moves: null });
  });
});

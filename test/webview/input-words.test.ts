// How an input moves, in words: read into the shapes of `foretick.json`, written back, and what is expected where the
// words are wrong.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkInput, type WrittenInput } from '../../server/src/report/project-inputs';
import { parseInput, writeInput } from '../../webview/src/input-words';

function read(text: string, width = 1): WrittenInput | string {
  const result = parseInput(text, width);
  return result.kind === 'value' ? result.value : `expected: ${result.expected}`;
}

describe('words', () => {
  it('hold a level', () => {
    expect([read('1'), read("4'b00x1", 4), read('x')]).toEqual(['1', "4'b00x1", "'bx"]);
  });

  it('say levels over time', () => {
    expect(read('0, 1 at 35 ns, 0 at 75 ns')).toEqual({
      levels: [
        { atPs: 0, value: '0' },
        { atPs: 35_000, value: '1' },
        { atPs: 75_000, value: '0' },
      ],
    });
    expect(read("3, 4'hf at 1.5 us again every 4 us", 4)).toEqual({
      levels: [
        { atPs: 0, value: '3' },
        { atPs: 1_500_000, value: "4'hf" },
      ],
      everyPs: 4_000_000,
    });
  });

  it('say a pulse, a contact, bytes, values at random', () => {
    expect(read('Pulse at 100 ns for 20 ns every 1 us low')).toEqual({
      pulse: { atPs: 100_000, widthPs: 20_000, everyPs: 1_000_000, active: 'low' },
    });
    expect(read('press at 1 µs release at 5 µs bouncing 200 ns 3 times')).toEqual({
      button: { pressPs: 1_000_000, releasePs: 5_000_000, bouncePs: 200_000, bounces: 3 },
    });
    expect(read('serial 0x55 13 at 115200 baud from 2 us')).toEqual({
      serial: { baud: 115_200, bytes: [0x55, 13], atPs: 2_000_000 },
    });
    expect(read('random seed 7 every 20 ns', 8)).toEqual({ random: { everyPs: 20_000, seed: 7 } });
  });
});

describe('what is expected', () => {
  it.each([
    ['nonsense', 1, /a constant of 1 bit: 0, 1 or x; or a movement: pulse at .*; press at .*; serial .*; random .*/],
    ['nonsense', 4, /a constant of 4 bits.*; or a movement: random every 20 ns; 0, 1 at 100 ns$/],
    ['pulse for ever', 1, /a movement such as pulse at 100 ns for 20 ns/],
    ['pulse at 100 ns for 0', 1, /times above 0/],
    ['pulse at 100 parsecs for 20 ns', 1, /a time of whole ps/],
    ['press at 1 us', 8, /levels or values at random, since this has 8 bits/],
    ['serial 300 at 9600 baud', 1, /bytes from 0 to 255/],
    ['0, 1 at 50 ns, 0 at 40 ns', 1, /levels in order of time/],
    ['0, 2 at 50 ns', 1, /2 needs 2 bits/],
    ['0 at 50 ns', 1, /a constant/],
    ['7', 2, /7 needs 3 bits/],
    ['', 1, /a constant/],
  ])('of %s with %i bits', (text, width, expected) => {
    expect(read(text, width)).toMatch(expected);
  });

  it('comes for any text, and nothing throws', () => {
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: 1, max: 64 }), (text, width) => {
        expect(['value', 'refused']).toContain(parseInput(text, width).kind);
      }),
    );
  });
});

const ps = fc.integer({ min: 1, max: 1e12 });
const some = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
const stated = (record: object) => JSON.parse(JSON.stringify(record)) as WrittenInput;

const movements = fc.oneof(
  fc.record({ pulse: fc.record({ atPs: ps, widthPs: ps, everyPs: some(ps), active: some(fc.constant('low')) }) }),
  fc.record({
    random: fc.record({ everyPs: ps, atPs: some(ps), seed: some(fc.integer({ min: 1, max: 2 ** 31 - 2 })) }),
  }),
  fc.record({
    serial: fc.record({
      atPs: some(ps),
      baud: fc.integer({ min: 1, max: 1e9 }),
      bytes: fc.array(fc.integer({ min: 0, max: 255 }), { minLength: 1, maxLength: 20 }),
    }),
  }),
  fc
    .record({ at: ps, bounce: some(ps), times: some(fc.integer({ min: 1, max: 99 })), release: some(ps) })
    .map(({ at, bounce, release, times }) => ({
      button: {
        pressPs: at,
        releasePs: release,
        bouncePs: bounce,
        bounces: bounce === undefined ? undefined : times,
      },
    })),
  fc
    .record({ times: fc.uniqueArray(ps, { minLength: 1, maxLength: 6 }), everyPs: some(ps) })
    .map(({ everyPs, times }) => ({
      levels: [0, ...times.sort((a, b) => a - b)].map((atPs, index) => ({ atPs, value: String(index % 2) })),
      everyPs,
    })),
);

it('what is written is read back as the same', () => {
  fc.assert(
    fc.property(movements.map(stated), (movement) => {
      expect(read(writeInput(movement))).toEqual(movement);
    }),
  );
});

it('what the words cannot rule out the shape does', () => {
  const wrong = read('pulse at 100 ns for 20 ns every 10 ns');
  expect(checkInput(wrong, 'en')).toEqual(['en.pulse.everyPs must be more than widthPs']);
});

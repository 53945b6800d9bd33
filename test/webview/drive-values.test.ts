// What may be written into the drive: read exactly, written back as the same, and refused with what is expected.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  parseConstant,
  parseCount,
  parsePeriod,
  parseTime,
  writeConstant,
  writePeriod,
} from '../../webview/src/drive-values';

const value = (ps: number | string) => ({ kind: 'value', value: ps });

describe('a period', () => {
  // Periods of rates are arithmetic: T = 1 / f.
  it.each([
    ['20 ns', 20_000],
    ['20ns', 20_000],
    [' 1.25 ns ', 1250],
    ['1,25 ns', 1250],
    ['0.1 us', 100_000],
    ['3 µs', 3_000_000],
    ['2 ps', 2],
    ['50 MHz', 20_000],
    ['32.768 kHz', 30_517_578.125],
    ['1 Hz', 1e12],
    ['2 GHz', 500],
  ])('%s is %d ps', (text, ps) => expect(parsePeriod(text)).toEqual(value(ps)));

  it('that is no whole number of ps keeps digits that can be read exactly', () => {
    const third = parsePeriod('3 MHz');
    expect(third).toEqual(value(333333.333333333));
    // What a number is written with must hold without its point in a safe integer: that is how a period is read.
    expect(Number.isSafeInteger(Number(String(333333.333333333).replace('.', '')))).toBe(true);
  });

  it.each(['', 'fast', '20', '20 m', '-5 ns', '0 ns', '0 MHz', '1 ps', '1e99 s', '5000 s', '20 ns x', '20 ns 5'])(
    'is not %j',
    (text) => expect(parsePeriod(text)).toMatchObject({ kind: 'refused', expected: expect.stringMatching(/\d/) }),
  );

  it('is read back as it was written', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 1e14 }), (ps) => {
        expect(parsePeriod(writePeriod(ps))).toEqual(value(ps));
      }),
    );
    expect(writePeriod('1000000/3')).toBe('3 MHz');
    expect(writePeriod('244140625/8')).toBe('32.768 kHz');
  });
});

describe('a time', () => {
  it('may be 0, and is a whole number of ps', () => {
    expect(parseTime('0')).toEqual(value(0));
    expect(parseTime('10 ns')).toEqual(value(10_000));
    for (const text of ['0.0001 ns', '10', '5 MHz', '']) expect(parseTime(text).kind).toBe('refused');
  });
});

describe('a number of periods', () => {
  it('is a whole number', () => {
    expect(parseCount('2')).toEqual(value(2));
    expect(parseCount(' 3 periods ')).toEqual(value(3));
    expect(parseCount('0')).toEqual(value(0));
    for (const text of ['', '-1', '1.5', 'two']) expect(parseCount(text).kind).toBe('refused');
  });
});

describe('a constant', () => {
  it('that is long is written in hexadecimal', () => {
    expect(writeConstant('1')).toBe('1');
    expect(writeConstant('00001111')).toBe("8'b00001111");
    expect(writeConstant('000000001111')).toBe("12'hf");
    expect(writeConstant('0000x0001111')).toBe("12'b0000x0001111");
  });

  // IEEE 1364-2005 3.5.1: sized and unsized based constants, underscores, x and z, signed bases.
  it.each([
    ["4'b0011", 4],
    ["4'B0011", 4],
    ["8'hF_F", 8],
    ["8 'h ff", 8],
    ["'o17", 4],
    ["4'sd7", 4],
    ["4'bx", 4],
    ["4'b00x1", 4],
    ['15', 4],
    ['0', 1],
    ['1_0', 4],
    ["16'h000F", 4],
  ])('%s fits %d bits', (text, width) => expect(parseConstant(text, width)).toEqual(value(text)));

  it.each([
    ['16', 4],
    ["8'h1f", 4],
    ['2', 1],
    ["4'b1012", 4],
    ["4'o9", 4],
    ["4'd1x", 4],
    ['ff', 8],
    ["'", 4],
    ['', 4],
    ["'q1", 4],
    ['-1', 4],
    ["0'b1", 4],
  ])('%s does not fit %d bits', (text, width) => expect(parseConstant(text, width).kind).toBe('refused'));

  it('of one letter means one unknown bit', () => {
    expect(parseConstant('x', 1)).toEqual(value("'bx"));
    expect(parseConstant('Z', 1)).toEqual(value("'bz"));
  });

  it('is read back as it was written', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('0', '1', 'x'), { minLength: 1, maxLength: 40 }), (bits) => {
        const digits = bits.join('');
        expect(parseConstant(writeConstant(digits), digits.length).kind).toBe('value');
      }),
    );
  });
});

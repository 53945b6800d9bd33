// Operators against the worked examples and tables of IEEE Std 1364-2005, each named by its clause and, where there is
// one, its row in the project's table of published values. Tables are quoted from memory of the standard.

import { describe, expect, it } from 'vitest';
import { evaluate } from '../../server/src/netlist/evaluate';
import { resolve } from '../../server/src/netlist/evaluate-resolve';
import { bitsOf, fromNumber, toBinary } from '../../server/src/netlist/four-state';
import { slice } from '../../server/src/netlist/four-state-parts';
import type { ResolutionKind } from '../../server/src/netlist/netlist';
import { Op } from '../../server/src/netlist/operators';

const noTables = { resolutions: [], caseWildcards: [], memories: [] };

function resultOf(op: keyof typeof Op, width: number, operands: readonly string[], aux = 0): string {
  return toBinary(evaluate(Op[op], width, operands.map(bitsOf), aux, noTables));
}

/** A binary operator whose result is as wide as its first operand. */
function binary(op: keyof typeof Op, left: string, right: string): string {
  return resultOf(op, left.length, [left, right]);
}

function decimal(width: number, value: number): string {
  return toBinary(fromNumber(width, value));
}

const digits = ['0', '1', 'x', 'z'] as const;

function tableOf(op: keyof typeof Op): string[] {
  return digits.map((row) => digits.map((column) => resultOf(op, 1, [row, column])).join(''));
}

describe('bitwise tables, IEEE 1364-2005 5.1.10; z as an input acts as x', () => {
  it('TAB-AND, Table 5-12', () => expect(tableOf('and')).toEqual(['0000', '01xx', '0xxx', '0xxx']));
  it('TAB-OR, Table 5-13', () => expect(tableOf('or')).toEqual(['01xx', '1111', 'x1xx', 'x1xx']));
  it('TAB-XOR, Table 5-14', () => expect(tableOf('xor')).toEqual(['01xx', '10xx', 'xxxx', 'xxxx']));
  it('TAB-XNOR, Table 5-15', () => expect(tableOf('xnor')).toEqual(['10xx', '01xx', 'xxxx', 'xxxx']));
  it('TAB-NOT, Table 5-16', () => expect(digits.map((digit) => resultOf('not', 1, [digit])).join('')).toBe('10xx'));
  it('nand and nor, 7.2 Table 7-3', () => {
    expect(tableOf('nand')).toEqual(['1111', '10xx', '1xxx', '1xxx']);
    expect(tableOf('nor')).toEqual(['10xx', '0000', 'x0xx', 'x0xx']);
  });
  it('buf, 7.3 Table 7-4', () => expect(digits.map((digit) => resultOf('buf', 1, [digit])).join('')).toBe('01xx'));
  it('bufif1, 7.4 Table 7-5, its ambiguous L and H read as x', () => {
    expect(tableOf('tristate')).toEqual(['z0xx', 'z1xx', 'zxxx', 'zxxx']);
  });
});

describe('several drivers on a net, IEEE 1364-2005 4.6', () => {
  const tableFor = (kind: ResolutionKind) =>
    digits.map((row) => digits.map((column) => toBinary(resolve(kind, [bitsOf(row), bitsOf(column)]))).join(''));

  it('TAB-WIRE, Table 4-2', () => expect(tableFor('wire')).toEqual(['0xx0', 'x1x1', 'xxxx', '01xz']));
  it('TAB-WAND, Table 4-3', () => expect(tableFor('wand')).toEqual(['0000', '01x1', '0xxx', '01xz']));
  it('TAB-WOR, Table 4-4', () => expect(tableFor('wor')).toEqual(['01x0', '1111', 'x1xx', '01xz']));
  it('tri0, Table 4-5', () => expect(tableFor('tri0')).toEqual(['0xx0', 'x1x1', 'xxxx', '01x0']));
  it('tri1, Table 4-6', () => expect(tableFor('tri1')).toEqual(['0xx0', 'x1x1', 'xxxx', '01x1']));
  it('takes any number of drivers, of any width', () => {
    const wide = (digit: string) => bitsOf(digit.repeat(40));
    expect(toBinary(resolve('wire', [wide('z'), wide('1'), wide('z')]))).toBe('1'.repeat(40));
    expect(toBinary(resolve('tri1', [wide('z')]))).toBe('1'.repeat(40));
  });
});

describe('arithmetic, IEEE 1364-2005 5.1.5', () => {
  it('EXP-21: 10, 11, 12 modulo 3', () => {
    expect([10, 11, 12].map((value) => binary('moduloUnsigned', decimal(4, value), '0011'))).toEqual([
      '0001',
      '0010',
      '0000',
    ]);
  });
  it('the remainder has the sign of the first operand (5.1.5, examples -10 % 3 and 11 % -3)', () => {
    expect(binary('moduloSigned', decimal(8, -10), decimal(8, 3))).toBe(decimal(8, -1));
    expect(binary('moduloSigned', decimal(8, 11), decimal(8, -3))).toBe(decimal(8, 2));
    expect(binary('moduloSigned', decimal(8, -12), decimal(8, 3))).toBe(decimal(8, 0));
  });
  it('division cuts towards zero', () => {
    expect(binary('divideSigned', decimal(8, -7), decimal(8, 2))).toBe(decimal(8, -3));
    expect(binary('divideSigned', decimal(40, -7), decimal(40, 2))).toBe(decimal(40, -3));
  });
  it('EXP-1, EXP-2: -12 / 3 signed and unsigned, 32 bits', () => {
    expect(binary('divideSigned', decimal(32, -12), decimal(32, 3))).toBe(decimal(32, -4));
    expect(binary('divideUnsigned', decimal(32, -12), decimal(32, 3))).toBe(decimal(32, 1431655761));
  });
  it('EXP-22: 3**2, 2**3, 2**0, 0**0', () => {
    const results = [
      [3, 2],
      [2, 3],
      [2, 0],
      [0, 0],
    ].map(([base, exponent]) => binary('powerUnsigned', decimal(8, base), decimal(8, exponent)));
    expect(results).toEqual([9, 8, 1, 1].map((value) => decimal(8, value)));
  });
  it('negative exponents, Table 5-6', () => {
    const row = (base: number) =>
      [-3, -2, 0, 3].map((exponent) => binary('powerSigned', decimal(8, base), decimal(8, exponent)));
    const expected = (...values: readonly (number | 'x')[]) =>
      values.map((value) => (value === 'x' ? 'xxxxxxxx' : decimal(8, value)));
    expect(row(-3)).toEqual(expected(0, 0, 1, -27));
    expect(row(-1)).toEqual(expected(-1, 1, 1, -1));
    expect(row(0)).toEqual(expected('x', 'x', 1, 0));
    expect(row(1)).toEqual(expected(1, 1, 1, 1));
    expect(row(3)).toEqual(expected(0, 0, 1, 27));
  });
  it('an exponent may have another sign than its base', () => {
    expect(resultOf('powerUnsigned', 4, ['0010', '1111'], 1)).toBe('0000');
    expect(resultOf('powerUnsigned', 4, ['1111', '1111'], 1)).toBe('0000');
    expect(resultOf('powerSigned', 4, ['1111', '1111'], 1)).toBe('1111');
    expect(resultOf('powerSigned', 4, ['1111', '1110'], 1)).toBe('0001');
  });
  it('EXP-17: hex F times hex A in 6 bits', () => expect(binary('multiply', '001111', '001010')).toBe('010110'));
  it('EXP-18, EXP-19: hex F to the power hex A in 4 and in 16 bits', () => {
    expect(resultOf('powerUnsigned', 4, ['1111', '001010'])).toBe('0001');
    expect(resultOf('powerUnsigned', 16, [decimal(16, 15), '001010'])).toBe(decimal(16, 0xac61));
  });
  it('EXP-23: divisor zero', () => {
    for (const op of ['divideUnsigned', 'divideSigned', 'moduloUnsigned', 'moduloSigned'] as const) {
      expect(binary(op, '0101', '0000')).toBe('xxxx');
    }
  });
  it('EXP-24: any unknown bit makes all x', () => {
    for (const op of ['add', 'subtract', 'multiply', 'divideUnsigned', 'moduloSigned', 'powerUnsigned'] as const) {
      expect(binary(op, '00x1', '0001')).toBe('xxxx');
      expect(binary(op, '0001', '00z1')).toBe('xxxx');
    }
    expect(resultOf('negate', 4, ['00x1'])).toBe('xxxx');
  });
  it('EXP-12, EXP-13: a sum keeps its width', () => {
    expect(binary('add', decimal(16, 0xffff), decimal(16, 1))).toBe(decimal(16, 0));
    expect(binary('add', decimal(17, 0xffff), decimal(17, 1))).toBe(decimal(17, 0x10000));
  });
  it('LIT-8, LIT-9: minus 4-bit -1, minus 8-bit 6', () => {
    expect(resultOf('negate', 4, ['1111'])).toBe('0001');
    expect(resultOf('negate', 8, [decimal(8, 6)])).toBe('11111010');
  });
  it('the most negative number divided by -1 wraps in its width', () => {
    for (const width of [8, 32, 40]) {
      const least = `1${'0'.repeat(width - 1)}`;
      expect(binary('divideSigned', least, '1'.repeat(width))).toBe(least);
      expect(binary('moduloSigned', least, '1'.repeat(width))).toBe('0'.repeat(width));
    }
  });
});

describe('shifts, IEEE 1364-2005 5.1.12', () => {
  it('EXP-25', () => expect(binary('shiftLeft', '0001', '10')).toBe('0100'));
  it('EXP-26', () => expect(binary('shiftRightSigned', '1000', '10')).toBe('1110'));
  it('EXP-27: an unsigned value takes the other operator', () =>
    expect(binary('shiftRight', '1000', '10')).toBe('0010'));
  it('EXP-28: unknown amount', () => {
    for (const op of ['shiftLeft', 'shiftRight', 'shiftRightSigned'] as const) {
      expect(binary(op, '0101', '0x')).toBe('xxxx');
      expect(binary(op, '0000', 'z0')).toBe('xxxx');
    }
  });
  it('amounts past the width', () => {
    const far = `1${'0'.repeat(40)}`;
    expect(binary('shiftLeft', '1111', far)).toBe('0000');
    expect(binary('shiftRightSigned', '1000', far)).toBe('1111');
  });
});

describe('comparison and reduction, IEEE 1364-2005 5.1.7 to 5.1.11', () => {
  it('EXP-29: an unknown bit in a relation', () => {
    for (const op of ['lessUnsigned', 'lessSigned', 'lessEqualUnsigned', 'lessEqualSigned'] as const) {
      expect(resultOf(op, 1, ['1x00', '0001'])).toBe('x');
      expect(resultOf(op, 1, ['0001', '1x00'])).toBe('x');
    }
  });
  it('EXP-30: ambiguous equality', () => {
    expect(resultOf('equal', 1, ['1x00', '1x00'])).toBe('x');
    expect(resultOf('notEqual', 1, ['1x00', '1x00'])).toBe('x');
  });
  it('EXP-32: a certain mismatch', () => {
    expect(resultOf('equal', 1, ['1x00', '0x00'])).toBe('0');
    expect(resultOf('notEqual', 1, ['1x00', '0x00'])).toBe('1');
  });
  it('EXP-33: logical operators as the elaborator writes them, on truth values', () => {
    expect(tableOf('and')[0][2]).toBe('0');
    expect(tableOf('and')[1][2]).toBe('x');
    expect(tableOf('or')[1][2]).toBe('1');
    expect(tableOf('or')[0][2]).toBe('x');
    expect(resultOf('not', 1, ['x'])).toBe('x');
  });
  it('EXP-34: 237 and 0', () => {
    const truths = [decimal(8, 237), decimal(8, 0)].map((value) => resultOf('reduceOr', 1, [value]));
    expect([resultOf('and', 1, truths), resultOf('or', 1, truths)]).toEqual(['0', '1']);
  });
  it.each([
    ['RED-1', '0000', '0', '0', '0'],
    ['RED-2', '1111', '1', '1', '0'],
    ['RED-3', '0110', '0', '1', '0'],
    ['RED-4', '1000', '0', '1', '1'],
    ['RED-5', '1x11', 'x', '1', 'x'],
    ['RED-5', '0x11', '0', '1', 'x'],
    ['RED-5', '0x00', '0', 'x', 'x'],
    ['RED-5', '1x00', '0', '1', 'x'],
    ['RED-5, z as x', '1z11', 'x', '1', 'x'],
  ])('%s: %s', (_, value, and, or, xor) => {
    const results = (['reduceAnd', 'reduceOr', 'reduceXor'] as const).map((op) => resultOf(op, 1, [value]));
    expect(results).toEqual([and, or, xor]);
  });
});

describe('conditional operator, IEEE 1364-2005 5.1.13', () => {
  it('TAB-COND, Table 5-21, for x and z', () => {
    for (const select of ['x', 'z']) {
      const table = digits.map((one) => digits.map((zero) => resultOf('mux', 1, [select, one, zero])).join(''));
      expect(table).toEqual(['0xxx', 'x1xx', 'xxxx', 'xxxx']);
    }
  });
  it('EXP-36', () => expect(resultOf('mux', 4, ['x', '110x', '1000'])).toBe('1x0x'));
  it('a known condition passes its arm whole, z too: this is how the text writes a tri-state', () => {
    expect(resultOf('mux', 4, ['0', '1010', 'zzzz'])).toBe('zzzz');
  });
});

describe('selects, IEEE 1364-2005 5.2.1', () => {
  const index = (digitsOfIndex: string) => digitsOfIndex.padStart(32, '0');
  const vector = decimal(8, 4);
  const read = (at: string, width = 1) => resultOf('readAt', width, [vector, at]);

  it('SEL-1: 8 bits holding 4', () => {
    expect([7, 6, 5, 4, 3, 2, 1, 0].map((at) => read(decimal(32, at))).join('')).toBe('00000100');
  });
  it('SEL-2: index 123, and negative ones', () => {
    expect(read(decimal(32, 123))).toBe('x');
    expect(read(decimal(32, -1))).toBe('x');
    expect(resultOf('readAt', 1, [vector, `1${'0'.repeat(32)}`])).toBe('x');
  });
  it('SEL-3 by the standard is x; the hardware reading merges what the index could mean', () => {
    expect(read('x'.repeat(32))).toBe('x');
    expect(read('z'.repeat(32))).toBe('x');
    // 0x1z: bits 2, 3, 6, 7 of 00000100 are not all alike …
    expect(read(index('0x1z'))).toBe('x');
    // … bits 4 to 7 are.
    expect(read(index('01xx'))).toBe('0');
  });
  it('SEL-4: fixed parts', () => {
    expect(toBinary(slice(bitsOf(vector), 0, 4))).toBe('0100');
    expect(toBinary(slice(bitsOf(vector), 1, 5))).toBe('00010');
  });
  it('SEL-7: byte 3 of 64 bits', () => {
    const word = decimal(64, 0x11223344).slice(0);
    expect(resultOf('readAt', 8, [word, decimal(32, 24)])).toBe(decimal(8, 0x11));
  });
  it('SEL-8: a write outside changes nothing', () => {
    expect(resultOf('writeAt', 8, [vector, decimal(32, 8), '1'])).toBe(vector);
    expect(resultOf('writeAt', 8, [vector, decimal(32, -1), '1'])).toBe(vector);
    expect(resultOf('writeAt', 8, [vector, decimal(32, 0x7fffffff), '1'])).toBe(vector);
  });
  it('SEL-8 at index x, by the hardware reading: any bit may have been written', () => {
    expect(resultOf('writeAt', 8, [vector, 'x'.repeat(32), '1'])).toBe('xxxxx1xx');
    expect(resultOf('writeAt', 8, [vector, index('01xx'), '1'])).toBe('xxxx0100');
    expect(resultOf('writeAt', 8, [vector, index('01xx'), '0'])).toBe('00000100');
  });
  it('SEL-9: bits 9 to 4 of 8 bits holding hex A5', () => {
    expect(toBinary(slice(bitsOf(decimal(8, 0xa5)), 4, 6))).toBe('xx1010');
    expect(resultOf('readAt', 6, [decimal(8, 0xa5), decimal(32, 4)])).toBe('xx1010');
  });
});

// Literals. Rows marked LIT follow the examples of IEEE 1364-2005 3.5.1.

import { describe, expect, test } from 'vitest';
import type { Expression } from '../../server/src/syntax/tables';
import { moduleOf, readText } from '../tools/reading';

async function read(text: string): Promise<Expression | undefined> {
  const module = await moduleOf(`module m; assign a = ${text}; endmodule`);
  const item = module.items[0];
  return item?.kind === 'assign' ? item.value : undefined;
}

describe('numbers', () => {
  test.each([
    ['659', null, true, 'd', '659'],
    ["'h 837FF", null, false, 'h', '837ff'],
    ["'o7460", null, false, 'o', '7460'],
    ["4'b1001", 4, false, 'b', '1001'],
    ["5 'D 3", 5, false, 'd', '3'],
    ["3'b01x", 3, false, 'b', '01x'],
    ["12'hx", 12, false, 'h', 'x'],
    ["16'hz", 16, false, 'h', 'z'],
    ["4'shf", 4, true, 'h', 'f'],
    ["16'sb?", 16, true, 'b', 'z'],
    ['27_195_000', null, true, 'd', '27195000'],
    ["16'b0011_0101_0001_1111", 16, false, 'b', '0011010100011111'],
    ["32 'h 12ab_f001", 32, false, 'h', '12abf001'],
    ["8'dX", 8, false, 'd', 'x'],
    ["4'd?", 4, false, 'd', 'z'],
    ["'SHaB", null, true, 'h', 'ab'],
  ])('%s', async (text, size, signed, base, digits) => {
    expect(await read(text)).toMatchObject({ kind: 'number', size, signed, base, digits });
  });

  test('a sign is an operator, not part of the number', async () => {
    expect(await read("-8'd6")).toMatchObject({
      kind: 'unary',
      operator: '-',
      operand: { kind: 'number', size: 8, digits: '6' },
    });
    expect(await read("-4'sd15")).toMatchObject({ kind: 'unary', operand: { signed: true, digits: '15' } });
  });

  test.each([
    // IEEE 1364-2005 3.5.1: "is illegal (hexadecimal format requires 'h)" and "illegal syntax".
    ['4af', 'bad-number', '4af'],
    ["8'd-6", 'bad-number', "8'd-"],
    ["3'b012", 'bad-number', "3'b012"],
    ["8'hfg", 'bad-number', "8'hfg"],
    ["8'd1a", 'bad-number', "8'd1a"],
    ["4'dxx", 'bad-number', "4'dxx"],
    // The size shall be non-zero.
    ["0'b1", 'zero-size', "0'b1"],
  ])('%s is refused', async (text, reason, shown) => {
    const { complaints } = await readText(`module m; assign a = ${text}; endmodule`);
    expect(complaints).toMatchObject([{ id: 'syntax', reason, args: { text: shown } }]);
    const { start } = complaints[0]?.place ?? { start: -1 };
    expect(start).toBe('module m; assign a = '.length);
  });
});

describe('other literals', () => {
  test.each([
    ['1.5', 1.5],
    ['1e3', 1000],
    ['1.2_5E-3', 0.00125],
    ['39e8', 39e8],
  ])('%s', async (text, value) => {
    expect(await read(text)).toMatchObject({ kind: 'real', value });
  });

  test.each([
    ['10ns', 10, 'ns'],
    ['1.5us', 1.5, 'us'],
    ['2s', 2, 's'],
    ['3fs', 3, 'fs'],
  ])('%s', async (text, value, unit) => {
    expect(await read(text)).toMatchObject({ kind: 'time', value, unit });
  });

  test.each([
    ["'0", '0'],
    ["'1", '1'],
    ["'x", 'x'],
    ["'Z", 'z'],
  ])('%s', async (text, digit) => {
    expect(await read(text)).toMatchObject({ kind: 'fill', digit });
  });

  // IEEE 1364-2005 A.8.7: digits on both sides of the point.
  test.each(['.5', '1.', '1.e3'])('%s is refused', async (text) => {
    const { complaints } = await readText(`module m; assign a = ${text}; endmodule`);
    expect(complaints.map(({ id }) => id)).toEqual(['syntax']);
  });
});

// IEEE 1364-2005 clauses 5.1, 5.4 and 5.5: signed and unsigned mixing, bit lengths, division, shifts, comparison.

import { expect } from 'vitest';
import { published } from './published';
import { initialValue, integerValue, netlistValue } from './values';

published('EXP-1', '-12 / 3', async () => expect(await integerValue('-12 / 3')).toBe(-4));
published('EXP-2', "-'d12 / 3", async () => expect(await integerValue("-'d12 / 3")).toBe(1431655761));
published('EXP-3', "-'sd12 / 3", async () => expect(await integerValue("-'sd12 / 3")).toBe(-4));
published('EXP-4', "-4'sd12 / 3", async () => expect(await integerValue("-4'sd12 / 3")).toBe(1));

const words = 'integer i; reg [15:0] u; reg signed [15:0] s;';

/** A 16-bit value after statements in an initial block. */
function after(statements: string, value: string): Promise<string> {
  return initialValue(16, value, `${words} initial begin ${statements} end`);
}

published('EXP-5', 'an integer that holds minus a 4-bit unsigned 12, divided by 3', async () => {
  expect(Number.parseInt(await after("i = -4'd12;", 'i / 3'), 2)).toBe(65532);
});

published('EXP-6', 'minus a 4-bit unsigned 12 in 16 bits', async () => {
  expect(Number.parseInt(await initialValue(16, "-4'd12"), 2)).toBe(65524);
});

published('EXP-7', 'that register divided by 3', async () => {
  expect(Number.parseInt(await after("u = -4'd12;", 'u / 3'), 2)).toBe(21841);
});

published('EXP-8', 'signed 16-bit targets', async () => {
  expect(await initialValue(16, '-12 / 3')).toBe('1111111111111100');
  expect(await initialValue(16, "-4'sd12 / 3")).toBe('0000000000000001');
});

published('EXP-9', 'the unsigned cast keeps the width of its operand', async () => {
  expect(await initialValue(8, '$unsigned(-4)')).toBe('11111100');
  expect(await initialValue(8, "$unsigned(-4'sd4)")).toBe('00001100');
});

published('EXP-10', 'the signed cast', async () => {
  expect(await initialValue(8, "$signed(4'b1100)")).toBe('11111100');
});

published('EXP-11', 'a part-select is unsigned', async () => {
  const declarations = 'reg signed [7:0] b; initial b = -1;';
  expect(await initialValue(16, 'b[7:0]', declarations)).toBe('0000000011111111');
  expect(await initialValue(16, 'b', declarations)).toBe('1111111111111111');
});

const sum = { a: "16'hFFFF", b: "16'h0001" };

published(['EXP-12', 'EXP-13'], 'the target takes part in the width of a sum', async () => {
  expect(await netlistValue(16, 'a + b', sum)).toBe('0'.repeat(16));
  expect(await netlistValue(17, 'a + b', sum)).toBe(`1${'0'.repeat(16)}`);
});

published(['EXP-14', 'EXP-15'], 'a carry is lost to a shift, and kept by an unsized zero', async () => {
  expect(await netlistValue(16, '(a + b) >> 1', sum)).toBe('0'.repeat(16));
  expect(await netlistValue(16, '(a + b + 0) >> 1', sum)).toBe(`1${'0'.repeat(15)}`);
});

published('EXP-16', 'a conditional is as wide as its wider arm', async () => {
  const inputs = { s: "1'b1", a: "4'h9", b: "4'h8", c: "5'h1f" };
  expect(await netlistValue(5, 's ? (a & b) : c', inputs)).toBe('01000');
});

published(['EXP-17', 'EXP-18', 'EXP-19'], 'products and powers, self-determined and not', async () => {
  const inputs = { a: "4'hF", b: "6'hA" };
  expect(await netlistValue(6, '{a * b}', inputs)).toBe('010110');
  expect(await netlistValue(16, '{a ** b}', inputs)).toBe(`${'0'.repeat(15)}1`);
  expect(await netlistValue(16, 'a ** b', inputs)).toBe((0xac61).toString(2));
});

published('EXP-20', 'a concatenation as target takes the carry', async () => {
  const inputs = { a: "4'hF", b: "4'hF", carry: "1'b1" };
  expect(await netlistValue(5, 'a + b + carry', inputs)).toBe('11111');
});

published('EXP-21', 'modulus', async () => {
  expect(await integerValue('10 % 3')).toBe(1);
  expect(await integerValue('11 % 3')).toBe(2);
  expect(await integerValue('12 % 3')).toBe(0);
});

published('EXP-22', 'power', async () => {
  expect([await integerValue('3 ** 2'), await integerValue('2 ** 3')]).toEqual([9, 8]);
  expect([await integerValue('2 ** 0'), await integerValue('0 ** 0')]).toEqual([1, 1]);
});

published('EXP-23', 'division by zero is unknown', async () => {
  expect(await netlistValue(4, 'a / b', { a: "4'd9", b: "4'd0" })).toBe('xxxx');
  expect(await netlistValue(4, 'a % b', { a: "4'd9", b: "4'd0" })).toBe('xxxx');
  expect(await initialValue(4, "4'd9 / 4'd0")).toBe('xxxx');
});

published('EXP-24', 'one unknown bit makes arithmetic unknown', async () => {
  expect(await netlistValue(4, 'a + b', { a: "4'b00x1", b: "4'b0001" })).toBe('xxxx');
  expect(await initialValue(4, "4'b00x1 + 4'b0001")).toBe('xxxx');
});

published(['EXP-25', 'EXP-26', 'EXP-27'], 'shifts', async () => {
  expect(await initialValue(4, "4'b0001 << 2")).toBe('0100');
  expect(await initialValue(4, "4'sb1000 >>> 2")).toBe('1110');
  expect(await initialValue(4, "4'b1000 >>> 2")).toBe('0010');
  expect(await netlistValue(4, '$signed(a) >>> b', { a: "4'b1000", b: "2'd2" })).toBe('1110');
  expect(await netlistValue(4, 'a >>> b', { a: "4'b1000", b: "2'd2" })).toBe('0010');
});

published('EXP-28', 'a shift by an unknown amount', async () => {
  expect(await netlistValue(4, 'a << b', { a: "4'b1000", b: "2'b1x" })).toBe('xxxx');
});

published('EXP-29', 'an ordering with an unknown operand', async () => {
  const inputs = { a: "4'b1x00", b: "4'b0001" };
  for (const operator of ['<', '>', '<=', '>=']) {
    expect(await netlistValue(1, `a ${operator} b`, inputs)).toBe('x');
  }
});

published(['EXP-30', 'EXP-32'], 'equality with an unknown bit, and with a certain difference', async () => {
  expect(await netlistValue(1, 'a == b', { a: "4'b1x00", b: "4'b1x00" })).toBe('x');
  expect(await netlistValue(1, 'a == b', { a: "4'b1x00", b: "4'b0x00" })).toBe('0');
});

published('EXP-31', 'case equality in constants', async () => {
  expect(await initialValue(1, "4'b1x00 === 4'b1x00")).toBe('1');
  expect(await initialValue(1, "4'b1x00 === 4'b1z00")).toBe('0');
  expect(await initialValue(1, "4'b1x00 !== 4'b1z00")).toBe('1');
});

published('EXP-33', 'logical operators with x', async () => {
  const x = { a: "1'bx" };
  expect(await netlistValue(1, "1'b0 && a", x)).toBe('0');
  expect(await netlistValue(1, "1'b1 && a", x)).toBe('x');
  expect(await netlistValue(1, "1'b1 || a", x)).toBe('1');
  expect(await netlistValue(1, "1'b0 || a", x)).toBe('x');
  expect(await netlistValue(1, '!a', x)).toBe('x');
});

published('EXP-34', 'logical operators on vectors', async () => {
  const inputs = { alpha: "8'd237", beta: "8'd0" };
  expect(await netlistValue(1, 'alpha && beta', inputs)).toBe('0');
  expect(await netlistValue(1, 'alpha || beta', inputs)).toBe('1');
});

published('EXP-35', 'if (x) takes the else branch in constants; the netlist merges', async () => {
  const declarations = "reg a; initial if (1'bx) a = 1; else a = 0;";
  expect(await initialValue(1, 'a', declarations)).toBe('0');
  expect(await netlistValue(1, "s ? 1'b1 : 1'b0", { s: "1'bx" })).toBe('x');
});

published(['EXP-36', 'TAB-COND'], 'a conditional with an unknown selector', async () => {
  const inputs = { s: "1'bx", a: "4'b110x", b: "4'b1000" };
  expect(await netlistValue(4, 's ? a : b', inputs)).toBe('1x0x');
  expect(await initialValue(4, "1'bx ? 4'b110x : 4'b1000")).toBe('1x0x');
  for (const selector of ["1'bx", "1'bz"]) {
    const arms = { s: selector, a: "16'b0000_1111_xxxx_zzzz", b: "16'b01xz_01xz_01xz_01xz" };
    expect(await netlistValue(16, 's ? a : b', arms)).toBe('0xxxx1xxxxxxxxxx');
  }
});

// Expressions by IEEE Std 1364-2005: literals (3.5.1), signs (5.1.3, 5.5), bit lengths (5.4), arithmetic, shifts,
// comparisons, logic, selects. The values are the standard's own worked examples unless a row says otherwise
// ("rule": its rule, the value worked out by hand; "memory": clause quoted from memory). Each row is a start value:
// declarations and initial blocks follow the standard to the letter.
import { describe, expect, test } from 'vitest';
import { netlistOf } from '../tools/elaborated';
import { driverOf } from './netlist-text';

interface Row {
  readonly id: string;
  /** Items of a module that has no ports; `r` is what is asked for. */
  readonly text: string;
  /** Binary digits of r. */
  readonly expected: string;
}

const bits = (width: number, value: number | bigint) =>
  BigInt.asUintN(width, BigInt(value)).toString(2).padStart(width, '0');
const hex = (width: number, digits: string) =>
  [...digits]
    .map((digit) => (/[xz]/.test(digit) ? digit.repeat(4) : parseInt(digit, 16).toString(2).padStart(4, '0')))
    .join('')
    .slice(-width);

const rows: readonly Row[] = [
  // 3.5.1
  { id: 'LIT-1', text: "reg [11:0] r = 'hx;", expected: hex(12, 'xxx') },
  { id: 'LIT-2', text: "reg [11:0] r = 'h3x;", expected: hex(12, '03x') },
  { id: 'LIT-3', text: "reg [11:0] r = 'hz3;", expected: hex(12, 'zz3') },
  { id: 'LIT-4', text: "reg [11:0] r = 'h0z3;", expected: hex(12, '0z3') },
  { id: 'LIT-5 five', text: "reg [84:0] r = 'h5;", expected: `${'0'.repeat(82)}101` },
  { id: 'LIT-5 x', text: "reg [84:0] r = 'hx;", expected: 'x'.repeat(85) },
  { id: 'LIT-5 z', text: "reg [84:0] r = 'hz;", expected: 'z'.repeat(85) },
  { id: 'LIT-6', text: "reg [2:0] r = 3'b01x;", expected: '01x' },
  { id: 'LIT-7', text: "integer r = 4'shf;", expected: bits(32, -1) },
  { id: 'LIT-8', text: "integer r = -4'sd15;", expected: bits(32, 1) },
  { id: 'LIT-9', text: "reg [7:0] r = -8'd6;", expected: '11111010' },
  { id: 'LIT-10', text: "reg [15:0] r = 16'sb?;", expected: 'z'.repeat(16) },
  { id: 'LIT-11 decimal', text: 'integer r = 27_195_000;', expected: bits(32, 27195000) },
  { id: 'LIT-11 binary', text: "reg [15:0] r = 16'b0011_0101_0001_1111;", expected: hex(16, '351f') },
  { id: 'LIT-11 hex', text: "reg [31:0] r = 32'h12ab_f001;", expected: hex(32, '12abf001') },
  // 5.1.3, 5.5
  { id: 'EXP-1', text: 'integer r = -12 / 3;', expected: bits(32, -4) },
  { id: 'EXP-2', text: "integer r = -'d 12 / 3;", expected: bits(32, 1431655761) },
  { id: 'EXP-3', text: "integer r = -'sd12 / 3;", expected: bits(32, -4) },
  { id: 'EXP-4', text: "integer r = -4'sd12 / 3;", expected: bits(32, 1) },
  { id: 'EXP-5', text: "integer i; reg [15:0] r; initial begin i = -4'd12; r = i / 3; end", expected: bits(16, 65532) },
  { id: 'EXP-6', text: "reg [15:0] r; initial r = -4'd12;", expected: bits(16, 65524) },
  { id: 'EXP-7', text: "reg [15:0] a; integer r; initial begin a = -4'd12; r = a / 3; end", expected: bits(32, 21841) },
  { id: 'EXP-8 plain', text: 'reg signed [15:0] r = -12 / 3;', expected: bits(16, -4) },
  { id: 'EXP-8 sized', text: "reg signed [15:0] r = -4'sd12 / 3;", expected: bits(16, 1) },
  { id: 'EXP-9 plain', text: 'reg [7:0] r = $unsigned(-4);', expected: '11111100' },
  { id: 'EXP-9 sized', text: "reg [7:0] r = $unsigned(-4'sd4);", expected: '00001100' },
  { id: 'EXP-10', text: "reg signed [7:0] r = $signed(4'b1100);", expected: bits(8, -4) },
  {
    id: 'EXP-11',
    text: 'reg signed [7:0] b; reg [15:0] r; initial begin b = -1; r = b[7:0]; end',
    expected: hex(16, '00ff'),
  },
  // 5.4 (EXP-12 to -15 rule)
  {
    id: 'EXP-12',
    text: "reg [15:0] a, b, r; initial begin a = 16'hffff; b = 1; r = a + b; end",
    expected: hex(16, '0000'),
  },
  {
    id: 'EXP-13',
    text: "reg [15:0] a, b; reg [16:0] r; initial begin a = 16'hffff; b = 1; r = a + b; end",
    expected: `1${hex(16, '0000')}`,
  },
  {
    id: 'EXP-14',
    text: "reg [15:0] a, b, r; initial begin a = 16'hffff; b = 1; r = (a + b) >> 1; end",
    expected: hex(16, '0000'),
  },
  {
    id: 'EXP-15',
    text: "reg [15:0] a, b, r; initial begin a = 16'hffff; b = 1; r = (a + b + 0) >> 1; end",
    expected: hex(16, '8000'),
  },
  {
    id: 'EXP-16',
    text: 'reg [3:0] a, b; reg [4:0] c, r; initial begin a = 9; b = 8; c = 1; r = c ? (a & b) : c; end',
    expected: '01000',
  },
  {
    id: 'EXP-17',
    text: "reg [3:0] a; reg [5:0] b, r; initial begin a = 4'hf; b = 6'ha; r = {a * b}; end",
    expected: bits(6, 0x16),
  },
  {
    id: 'EXP-18',
    text: "reg [3:0] a; reg [5:0] b; reg [15:0] r; initial begin a = 4'hf; b = 6'ha; r = {a ** b}; end",
    expected: bits(16, 1),
  },
  {
    id: 'EXP-19',
    text: "reg [3:0] a; reg [5:0] b; reg [15:0] r; initial begin a = 4'hf; b = 6'ha; r = a ** b; end",
    expected: hex(16, 'ac61'),
  },
  {
    id: 'EXP-20',
    text: 'reg [3:0] a, b; reg [4:0] r; initial begin a = 15; b = 15; {r[4], r[3:0]} = a + b + 1; end',
    expected: '11111',
  },
  // 5.1.5, 5.1.12 (EXP-23, -24, -27, -28 memory)
  ...[
    [10, 1],
    [11, 2],
    [12, 0],
  ].map(([value, rest]) => ({ id: `EXP-21 ${value}`, text: `integer r = ${value} % 3;`, expected: bits(32, rest) })),
  ...[
    ['3 ** 2', 9],
    ['2 ** 3', 8],
    ['2 ** 0', 1],
    ['0 ** 0', 1],
  ].map(([text, value]) => ({ id: `EXP-22 ${text}`, text: `integer r = ${text};`, expected: bits(32, Number(value)) })),
  { id: 'EXP-23 /', text: "reg [3:0] r = 4'd5 / 4'd0;", expected: 'xxxx' },
  { id: 'EXP-23 %', text: "reg [3:0] r = 4'd5 % 4'd0;", expected: 'xxxx' },
  { id: 'EXP-24', text: "reg [3:0] r = 4'b00x1 + 4'b0001;", expected: 'xxxx' },
  { id: 'EXP-25', text: 'reg [3:0] a, r; initial begin a = 1; r = (a << 2); end', expected: '0100' },
  { id: 'EXP-26', text: "reg signed [3:0] a, r; initial begin a = 4'b1000; r = (a >>> 2); end", expected: '1110' },
  { id: 'EXP-27', text: "reg [3:0] r = 4'b1000 >>> 2;", expected: '0010' },
  { id: 'EXP-28', text: "reg [3:0] r = 4'b1000 >> 2'b1x;", expected: 'xxxx' },
  // 5.1.7 to 5.1.9 (memory)
  ...['<', '>', '<=', '>='].map((operator) => ({
    id: `EXP-29 ${operator}`,
    text: `reg r = 4'b1x00 ${operator} 4'b0001;`,
    expected: 'x',
  })),
  { id: 'EXP-30', text: "reg r = 4'b1x00 == 4'b1x00;", expected: 'x' },
  { id: 'EXP-31 same', text: "reg r = 4'b1x00 === 4'b1x00;", expected: '1' },
  { id: 'EXP-31 other', text: "reg r = 4'b1x00 === 4'b1z00;", expected: '0' },
  { id: 'EXP-31 not', text: "reg r = 4'b1x00 !== 4'b1z00;", expected: '1' },
  { id: 'EXP-32', text: "reg r = 4'b1x00 == 4'b0x00;", expected: '0' },
  ...[
    ["1'b0 && 1'bx", '0'],
    ["1'b1 && 1'bx", 'x'],
    ["1'b1 || 1'bx", '1'],
    ["1'b0 || 1'bx", 'x'],
    ["!1'bx", 'x'],
  ].map(([text, expected]) => ({ id: `EXP-33 ${text}`, text: `reg r = ${text};`, expected })),
  { id: 'EXP-34 and', text: 'integer a, b; reg r; initial begin a = 237; b = 0; r = a && b; end', expected: '0' },
  { id: 'EXP-34 or', text: 'integer a, b; reg r; initial begin a = 237; b = 0; r = a || b; end', expected: '1' },
  { id: 'EXP-35', text: "reg r; initial if (1'bx) r = 1; else r = 0;", expected: '0' },
  { id: 'EXP-36', text: "reg [3:0] r = 1'bx ? 4'b110x : 4'b1000;", expected: '1x0x' },
  // 5.1.11, results table (memory)
  ...[
    ['0000', '010101'],
    ['1111', '101001'],
    ['0110', '011001'],
    ['1000', '011010'],
  ].flatMap(([operand, results], index) =>
    ['&', '~&', '|', '~|', '^', '~^'].map((operator, column) => ({
      id: `RED-${index + 1} ${operator}`,
      text: `reg r = ${operator}4'b${operand};`,
      expected: results[column],
    })),
  ),
  ...[
    ["&4'b1x11", 'x'],
    ["&4'b0x11", '0'],
    ["|4'b0x00", 'x'],
    ["|4'b1x00", '1'],
    ["^4'b10x0", 'x'],
  ].map(([text, expected]) => ({
    id: `RED-5 ${text}`,
    text: `reg r = ${text};`,
    expected,
  })),
  // 5.2.1
  ...[0, 1, 2, 3, 4, 5, 6, 7].map((bit) => ({
    id: `SEL-1 ${bit}`,
    text: `reg [7:0] v; reg r; initial begin v = 4; r = v[${bit}]; end`,
    expected: bit === 2 ? '1' : '0',
  })),
  ...['123', "1'bx", "1'bz", "4'b0x1z"].map((index) => ({
    id: `SEL-2, -3 ${index}`,
    text: `reg [7:0] v; reg r; initial begin v = 4; r = v[${index}]; end`,
    expected: 'x',
  })),
  { id: 'SEL-4 low', text: 'reg [7:0] v; reg [3:0] r; initial begin v = 4; r = v[3:0]; end', expected: '0100' },
  { id: 'SEL-4 middle', text: 'reg [7:0] v; reg [4:0] r; initial begin v = 4; r = v[5:1]; end', expected: '00010' },
  {
    id: 'SEL-5 up',
    text: "reg [31:0] v; reg [7:0] r; initial begin v = 32'h12345678; r = v[0 +: 8]; end",
    expected: hex(8, '78'),
  },
  {
    id: 'SEL-5 down',
    text: "reg [31:0] v; reg [7:0] r; initial begin v = 32'h12345678; r = v[15 -: 8]; end",
    expected: hex(8, '56'),
  },
  {
    id: 'SEL-6 up',
    text: "reg [0:31] v; reg [7:0] r; initial begin v = 32'h12345678; r = v[0 +: 8]; end",
    expected: hex(8, '12'),
  },
  {
    id: 'SEL-6 down',
    text: "reg [0:31] v; reg [7:0] r; initial begin v = 32'h12345678; r = v[15 -: 8]; end",
    expected: hex(8, '34'),
  },
  {
    id: 'SEL-7',
    text: "reg [63:0] v; integer sel; reg [7:0] r; initial begin v = 64'h0102030405060708; sel = 3; r = v[8*sel +: 8]; end",
    expected: hex(8, '05'),
  },
  { id: 'SEL-8 outside', text: 'reg [3:0] r; initial begin r = 5; r[9] = 1; end', expected: '0101' },
  { id: 'SEL-8 unknown', text: "reg [3:0] r; initial begin r = 5; r[1'bx] = 1; end", expected: '0101' },
  { id: 'SEL-9', text: "reg [7:0] v; reg [5:0] r; initial begin v = 8'ha5; r = v[9:4]; end", expected: 'xx1010' },
  {
    id: 'SEL-10',
    text: "parameter P = 32; reg [31:0] a, r; initial begin a = 7; r = {{32-P{1'b1}}, a[P-1:0]}; end",
    expected: bits(32, 7),
  },
];

describe('start values by IEEE 1364-2005', () => {
  test.each(rows)('$id: $text', async ({ text, expected }) => {
    const { netlist } = await netlistOf(`module m; ${text} endmodule`);
    expect(driverOf(netlist, 'r')).toBe(expected);
  });
});

describe('what the standard forbids', () => {
  test('SEL-10, a replication by zero that stands alone (5.1.14)', async () => {
    const { complaints } = await netlistOf("module m; reg [3:0] r = {0{1'b1}}; endmodule");
    expect(complaints.map(({ id, reason }) => `${id} ${reason}`)).toEqual(['unsupported zero-replication']);
  });

  test.each(["1'bx", "1'bz"])('SEL-11, a replication by %s (5.1.14)', async (count) => {
    const { complaints } = await netlistOf(`module m; reg [3:0] r = {${count}{1'b1}}; endmodule`);
    expect(complaints.map(({ id, reason }) => `${id} ${reason}`)).toEqual(['unsupported unknown-constant']);
  });

  test('LIT-12, a sign between base and digits', async () => {
    const { complaints } = await netlistOf("module m; reg [7:0] r = 8'd-6; endmodule");
    expect(complaints.map(({ id }) => id)).toEqual(['syntax']);
  });
});

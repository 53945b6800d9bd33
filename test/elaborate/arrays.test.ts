// Arrays of nets and variables (IEEE 1364-2005 4.9): words as signals, reads and writes at indices that vary (5.2.2), what
// lies outside, several dimensions, start values; which arrays are memories (definition 11).
import { describe, expect, test } from 'vitest';
import { fromNumber, toBinary } from '../../server/src/netlist/four-state';
import { netlistOf } from '../tools/elaborated';
import { driverOf, nodeText, registerNames, registerOf } from './netlist-text';

const reasons = (complaints: readonly { readonly id: string; readonly reason: string }[]) =>
  complaints.map(({ id, reason }) => `${id} ${reason}`);

async function elaborated(text: string) {
  const { netlist, complaints } = await netlistOf(
    `module m(input clk, we, input [1:0] a, b, input [3:0] d, output [3:0] y); ${text} endmodule`,
  );
  expect(complaints).toEqual([]);
  return netlist;
}

describe('reads', () => {
  const index = '{000000000000000000000000000000, a[1:0], 00}';

  test.each([
    ['a constant index names a word', 'assign y = w[2];', 'w[2][3:0]'],
    ['a bit and a part of a word', 'assign y = {w[1][3], w[0][2:0]};', '{w[1][3], w[0][2:0]}'],
    ['an index outside reads x', 'assign y = w[4];', 'xxxx'],
    ['an index that varies', 'assign y = w[a];', `readAt({w[3][3:0], w[2][3:0], w[1][3:0], w[0][3:0]}, ${index})`],
    [
      'a part of a word at an index that varies',
      'assign y = w[a][2:1];',
      `{00, readAt({w[3][3:0], w[2][3:0], w[1][3:0], w[0][3:0]}, ${index})<2:1>}`,
    ],
    [
      'a genvar',
      'genvar i; for (i = 0; i < 4; i = i + 1) assign y[i] = w[i][i];',
      '{w[3][3], w[2][2], w[1][1], w[0][0]}',
    ],
  ])('%s', async (_, text, expected) => {
    const netlist = await elaborated(`wire [3:0] w [0:3]; assign w[0] = d, w[1] = ~d, w[2] = 0, w[3] = 1; ${text}`);
    const pieces = netlist.signals.find(({ name }) => name === 'y')?.pieces ?? [];
    const parts = pieces.map((id) =>
      nodeText(netlist, netlist.nodes.pool[netlist.nodes.first[netlist.pieces[id].node]] as never),
    );
    expect(parts.length === 1 ? parts[0] : `{${parts.reverse().join(', ')}}`).toBe(expected);
  });

  test('the first index need not be 0, nor lie left', async () => {
    const netlist = await elaborated('wire [3:0] w [5:4]; assign w[4] = d, w[5] = ~d; assign y = w[a + 4];');
    expect(driverOf(netlist, 'y')).toMatch(/^readAt\(\{w\[5\]\[3:0\], w\[4\]\[3:0\]\}, \{subtract\(.*0100\), 00\}\)$/);
  });

  test('the last of several indices runs fastest', async () => {
    const netlist = await elaborated('wire [3:0] w [0:1][0:1]; assign w[1][0] = d; assign y = w[we][0];');
    expect(netlist.signals.filter(({ name }) => name.startsWith('w[')).map(({ name }) => name)).toEqual([
      'w[0][0]',
      'w[0][1]',
      'w[1][0]',
      'w[1][1]',
    ]);
    expect(driverOf(netlist, 'y')).toContain('readAt({w[1][1][3:0], w[1][0][3:0], w[0][1][3:0], w[0][0][3:0]}');
  });
});

describe('writes', () => {
  test('at an index that varies: every word is a register with its own enable', async () => {
    const netlist = await elaborated('reg [3:0] w [0:2]; always @(posedge clk) if (we) w[a] <= d; assign y = w[b];');
    expect(registerNames(netlist)).toEqual(['w[0][3:0]', 'w[1][3:0]', 'w[2][3:0]']);
    expect(nodeText(netlist, registerOf(netlist, 'w[1][3:0]').data)).toBe(
      'mux(we, mux(equal(a[1:0], 01), d[3:0], R w[1][3:0]), R w[1][3:0])',
    );
    expect(registerOf(netlist, 'w[1][3:0]').enables.map(({ text }) => text)).toEqual(['we && a == 1']);
  });

  test('at constant indices: registers, and no memory', async () => {
    const netlist = await elaborated(`reg [3:0] w [1:3]; integer i;
      always @(posedge clk) begin w[1] <= d; for (i = 2; i < 4; i = i + 1) w[i] <= w[i - 1]; end assign y = w[3];`);
    expect(nodeText(netlist, registerOf(netlist, 'w[3][3:0]').data)).toBe('w[2][3:0]');
    expect(netlist.memories).toEqual([]);
  });

  test('of a part of a word, of a word in a concatenation, and outside', async () => {
    const netlist = await elaborated(`reg [3:0] w [0:1]; reg [3:0] v [0:1];
      always @(posedge clk) begin w[we][1:0] <= d; {v[1], v[we][3]} <= d; v[7] <= d; end assign y = w[1] ^ v[0];`);
    expect(registerNames(netlist)).toEqual(['w[0][1:0]', 'w[1][1:0]', 'v[0][3]', 'v[1][3:0]']);
    expect(nodeText(netlist, registerOf(netlist, 'w[1][1:0]').data)).toBe('mux(equal(we, 1), d[1:0], R w[1][1:0])');
  });

  test('in a level process: logic where every word has a default', async () => {
    const netlist = await elaborated(`reg w [0:1]; reg [3:0] r;
      always @* begin w[0] = 0; w[1] = 1; w[we] = d[0]; r = {w[1], w[0]}; end assign y = r;`);
    expect(netlist.latches).toEqual([]);
    expect(driverOf(netlist, 'r')).toBe('{00, mux(equal(we, 1), d[0], 1), mux(equal(we, 0), d[0], 0)}');
  });
});

test('which clock reads and writes a memory', async () => {
  const netlist = await elaborated(
    'reg [3:0] w [0:3], q; always @(posedge clk) begin w[a] <= d; q <= w[b]; end assign y = w[1];',
  );
  expect(netlist.memories).toMatchObject([
    {
      name: 'w',
      words: 4,
      width: 4,
      ports: [
        { kind: 'write', process: 1 },
        { kind: 'read', process: 1 },
      ],
    },
  ]);
});

test('words have start values', async () => {
  const netlist = await elaborated(`reg [3:0] w [0:3]; integer i; initial for (i = 0; i < 4; i = i + 1) w[i] = i + 5;
    always @(posedge clk) w[a] <= d; assign y = w[b];`);
  expect(netlist.registers.map(({ initial }) => toBinary(initial))).toEqual(['0101', '0110', '0111', '1000']);
});

test('a word that nothing writes keeps its start value', async () => {
  const netlist = await elaborated(
    'reg [3:0] rom [0:1]; initial begin rom[0] = 5; rom[1] = 9; end assign y = rom[we];',
  );
  expect(driverOf(netlist, 'rom[1]')).toBe('1001');
});

test('a net array cannot be driven at an index that varies', async () => {
  const { netlist, complaints } = await netlistOf(
    'module m(input d, output y); wire w [0:1]; assign w[d] = d; assign y = w[0]; endmodule',
  );
  expect(reasons(complaints)).toEqual(['unsupported not-constant']);
  expect(driverOf(netlist, 'w[1]')).toMatch(/hole/);
});

test('an array of many words is one content', async () => {
  const { netlist, complaints } = await netlistOf(`module m(input clk, input [11:0] a, input [31:0] d, output [31:0] y);
    reg [31:0] big [0:4095]; always @(posedge clk) big[a] <= d; assign y = big[a]; endmodule`);
  expect(reasons(complaints)).toEqual([]);
  expect(netlist.memories).toMatchObject([{ name: 'big', words: 4096, width: 32 }]);
  expect(netlist.registers).toHaveLength(1);
  expect(driverOf(netlist, 'y')).toBe('memoryRead(big, {00000000000000000000, a[11:0]})');
});

test('an array past the limit is known by its size', async () => {
  const { netlist, complaints } = await netlistOf(
    `module m(input clk, input [11:0] a, input [31:0] d, output [31:0] y);
    reg [31:0] big [0:4095]; always @(posedge clk) big[a] <= d; assign y = big[a]; endmodule`,
    { limits: { memoryWords: 1024 } },
  );
  expect(reasons(complaints)).toEqual(['limit-reached limit']);
  expect(driverOf(netlist, 'y')).toMatch(/hole/);
});

describe('$readmemh and $readmemb (17.2.9)', () => {
  async function words(call: string, data: Readonly<Record<string, string>>, range = '[0:3]') {
    const { netlist, complaints } = await netlistOf(
      `module m(input a, output [7:0] y); parameter FILE = "named.hex"; reg [7:0] rom ${range}; initial ${call}; assign y = rom[a]; endmodule`,
      { data },
    );
    return {
      values: netlist.signals.filter(({ name }) => name.startsWith('rom[')).map(({ name }) => driverOf(netlist, name)),
      reasons: reasons(complaints),
    };
  }

  test.each([
    [
      'hexadecimal, with comments',
      '$readmemh("a.hex", rom)',
      '01 /* two */ 2 // three\n f_f',
      ['00000001', '00000010', '11111111'],
    ],
    ['binary, with unknown digits', '$readmemb("a.hex", rom)', '1 x0 z_1', ['00000001', '000000x0', '000000z1']],
    ['addresses', '$readmemh("a.hex", rom)', '@2 7 8 @0 9', ['00001001', 'undriven', '00000111', '00001000']],
    ['from an address on', '$readmemh("a.hex", rom, 1)', '5 6 7 8 9', ['undriven', '00000101', '00000110', '00000111']],
    ['downward', '$readmemh("a.hex", rom, 2, 1)', '5 6 7', ['undriven', '00000110', '00000101', 'undriven']],
    ['too long a number is cut', '$readmemh("a.hex", rom)', '123', ['00100011']],
    ['a path in a parameter', '$readmemh(FILE, rom)', '44', ['01000100']],
  ])('%s', async (_, call, text, expected) => {
    const found = await words(call, { 'a.hex': text, 'named.hex': text });
    expect(found.reasons).toEqual([]);
    for (const [index, value] of expected.entries()) {
      if (value === 'undriven') expect(found.values[index]).toMatch(/undriven|^x+$/);
      else expect(found.values[index]).toBe(value);
    }
  });

  test.each([
    [
      'addresses',
      '$readmemh("a.hex", rom)',
      '@2 7 8 @0 9',
      ['00001001', 'xxxxxxxx', '00000111', '00001000', 'xxxxxxxx'],
    ],
    ['from an address on', '$readmemh("a.hex", rom, 1)', '5 6', ['xxxxxxxx', '00000101', '00000110', 'xxxxxxxx']],
    ['downward', '$readmemh("a.hex", rom, 2, 1)', '5 6 7', ['xxxxxxxx', '00000110', '00000101', 'xxxxxxxx']],
    ['binary, with unknown digits', '$readmemb("a.hex", rom)', '1 x0 z_1', ['00000001', '000000x0', '000000z1']],
    ['of several for one the last', '$readmemh("a.hex", rom)', '1 2 @1 3 @0 xx', ['xxxxxxxx', '00000011']],
    ['what does not fit is left out', '$readmemh("a.hex", rom)', '@fff 1 2 @0 3', ['00000011', 'xxxxxxxx']],
    [
      'one file after the other',
      'begin $readmemh("a.hex", rom); $readmemh("a.hex", rom, 2, 3); end',
      '5 6',
      ['00000101', '00000110', '00000101', '00000110'],
    ],
  ])('into a memory of many words: %s', async (_, call, text, expected) => {
    const { netlist, complaints } = await netlistOf(
      `module m(input clk, we, input [10:0] a, output [7:0] y); reg [7:0] rom [0:2047]; initial ${call};
      always @(posedge clk) if (we) rom[a] <= 0; assign y = rom[a]; endmodule`,
      { data: { 'a.hex': text } },
    );
    expect(complaints).toEqual([]);
    const { contents } = netlist.memories[0];
    const { initial } = netlist.registers[0];
    const words = expected.map((_word, index) => contents?.read(initial, [fromNumber(32, index)]) ?? initial);
    expect(words.map(toBinary)).toEqual(expected);
  });

  test('the lowest index comes first, however the range runs', async () => {
    const { values } = await words('$readmemh("a.hex", rom)', { 'a.hex': '1 2' }, '[5:4]');
    expect(values).toEqual(['00000001', '00000010']);
  });

  test('a file that is not there is said, and the words start unknown', async () => {
    const found = await words('$readmemh("none.hex", rom)', {});
    expect(found.reasons).toEqual(['unresolved-name missing-data-file']);
    expect(found.values[0]).toBe('xxxxxxxx');
  });

  test('what is no number is said; what came before it is loaded', async () => {
    const found = await words('$readmemb("a.hex", rom)', { 'a.hex': '1 2 1' });
    expect(found.reasons).toEqual(['unsupported bad-data-file']);
    expect(found.values[0]).toBe('00000001');
  });
});

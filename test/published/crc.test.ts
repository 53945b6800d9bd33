// Checks of the public catalogue of cyclic redundancy codes over the nine characters 123456789 (from memory, recomputed
// bit by bit): each code as a design that takes one character a clock, read from its predicted waves.

import { expect } from 'vitest';
import { wavesOf } from '../tools/report-of';
import { published } from './published';

interface Code {
  readonly width: number;
  /** Hexadecimal, as the catalogue prints them. */
  readonly polynomial: string;
  readonly start: string;
  readonly reflected: boolean;
  readonly inverted: boolean;
}

/** The register takes bits from its upper end; a reflected code hears each character from its lower end. */
function designOf({ inverted, polynomial, reflected, start, width }: Code): string {
  const bit = reflected ? '7 - k' : 'k';
  const placed = reflected ? 'value[k] = crc[W - 1 - k]' : 'value[k] = crc[k]';
  return `module m #(parameter W = ${width}) (input clk, output reg [W-1:0] crc, output reg [W-1:0] value);
    reg [71:0] message;
    reg [3:0] count;
    reg [W-1:0] next;
    reg feedback;
    integer k;
    wire [7:0] character = message[71:64];
    initial begin message = "123456789"; crc = ${width}'h${start}; count = 0; end
    always @* begin
      next = crc;
      for (k = 7; k >= 0; k = k - 1) begin
        feedback = next[W-1] ^ character[${bit}];
        next = (next << 1) ^ (feedback ? ${width}'h${polynomial} : {W{1'b0}});
      end
    end
    always @(posedge clk) if (count != 9) begin
      count <= count + 1;
      message <= message << 8;
      crc <= next;
    end
    always @* begin
      for (k = 0; k < W; k = k + 1) ${placed};
      value = ${inverted ? '~value' : 'value'};
    end
  endmodule`;
}

/** Periods of 20 ns, the first rise at 10 ns. */
const afterRises = (count: number) => (10 + 20 * (count - 1) + 5) * 1000;

async function valuesOf(code: Code): Promise<(name: string, rises: number) => string> {
  const waves = await wavesOf([{ path: 'm.v', text: designOf(code) }], afterRises(10) + 1);
  const digits = code.width / 4;
  return (name, rises) =>
    Number.parseInt(waves(name).at(afterRises(rises)), 2)
      .toString(16)
      .toUpperCase()
      .padStart(digits, '0');
}

const plain = { reflected: false, inverted: false };
const reflected = { reflected: true, inverted: false };
const xmodem: Code = { width: 16, polynomial: '1021', start: '0000', ...plain };

const codes: readonly (readonly [id: string, name: string, code: Code, check: string])[] = [
  ['FUN-1', 'CRC-8', { width: 8, polynomial: '07', start: '00', ...plain }, 'F4'],
  ['FUN-2', 'CRC-8/MAXIM-DOW', { width: 8, polynomial: '31', start: '00', ...reflected }, 'A1'],
  ['FUN-3', 'CRC-16/XMODEM', xmodem, '31C3'],
  ['FUN-4', 'CRC-16/IBM-3740', { width: 16, polynomial: '1021', start: 'FFFF', ...plain }, '29B1'],
  ['FUN-5', 'CRC-16/ARC', { width: 16, polynomial: '8005', start: '0000', ...reflected }, 'BB3D'],
  ['FUN-6', 'CRC-16/KERMIT', { width: 16, polynomial: '1021', start: '0000', ...reflected }, '2189'],
  [
    'FUN-7',
    'CRC-32',
    { width: 32, polynomial: '04C11DB7', start: 'FFFFFFFF', reflected: true, inverted: true },
    'CBF43926',
  ],
  [
    'FUN-8',
    'CRC-32/BZIP2',
    { width: 32, polynomial: '04C11DB7', start: 'FFFFFFFF', reflected: false, inverted: true },
    'FC891918',
  ],
];

for (const [id, name, code, check] of codes) {
  published(id, name, async () => expect((await valuesOf(code))('value', 9)).toBe(check));
}

published('FUN-9', 'the register after each character', async () => {
  const value = await valuesOf(xmodem);
  const passed = Array.from({ length: 9 }, (_, index) => value('crc', index + 1));
  expect(passed).toEqual(['2672', '20B5', '9752', 'D789', '546C', '20E4', '86D6', '9015', '31C3']);
});

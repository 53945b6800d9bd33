// The letter of IEEE Std 1364-2005 where it differs from the hardware reading: case equality, case items, conditions,
// edges. Tables are quoted from memory of the standard.

import { describe, expect, it } from 'vitest';
import { edgeOf, hardwareEdge } from '../../server/src/netlist/edges';
import { bitsOf, type Digit, toBinary } from '../../server/src/netlist/four-state';
import { caseEqual, caseMatches, caseNotEqual, conditional, isFalse, isTrue } from '../../server/src/netlist/ieee';

type CaseKind = 'case' | 'casez' | 'casex';

/** The index of the first item taken, -1 for the default. */
function takenItem(kind: CaseKind, selector: string, items: readonly string[]): number {
  return items.findIndex((item) => caseMatches(kind, bitsOf(selector), bitsOf(item)));
}

describe('case equality, 5.1.8', () => {
  const same = (left: string, right: string) => toBinary(caseEqual(bitsOf(left), bitsOf(right)));

  it('EXP-31', () => {
    expect(same('1x00', '1x00')).toBe('1');
    expect(same('1x00', '1z00')).toBe('0');
    expect(toBinary(caseNotEqual(bitsOf('1x00'), bitsOf('1z00')))).toBe('1');
    expect(toBinary(caseNotEqual(bitsOf('1x00'), bitsOf('1x00')))).toBe('0');
  });
});

describe('case items, 9.5', () => {
  it('CASE-1: x and z in items of a plain case', () => {
    expect(takenItem('case', '0x', ['00', '01', '0x', '0z', '10', 'x0', 'z0'])).toBe(2);
    expect(takenItem('case', 'z0', ['00', '01', '0x', '0z', '10', 'x0', 'z0'])).toBe(6);
  });
  it('CASE-2: one bit', () => {
    expect(['z', 'x', '0', '1'].map((selector) => takenItem('case', selector, ['z', 'x']))).toEqual([0, 1, -1, -1]);
  });
  it('CASE-3: casez', () => {
    const items = ['1???????', '01??????', '00010???', '000001??'];
    const values = ['10110010', '01000000', '00010111', '00000100'];
    expect(values.map((value) => takenItem('casez', value, items))).toEqual([0, 1, 2, 3]);
  });
  it('CASE-4: z in the selector', () => expect(takenItem('casez', '1z11', ['1zzz'])).toBe(0));
  it('CASE-5: casex', () => {
    // 01100110 exclusive-or x0x0x0x0
    expect(takenItem('casex', 'x1x0x1x0', ['001100xx', '1100xx00', '00xx0011', 'xx010100'])).toBe(1);
  });
  it('CASE-6: x in the selector of a casez', () => {
    expect(takenItem('casez', 'x', ['0'])).toBe(-1);
    expect(takenItem('casex', 'x', ['0'])).toBe(0);
  });
  it('CASE-7: case (1) takes the first item that is 1', () => {
    const encode = '011';
    expect(takenItem('case', '1', [...encode])).toBe(1);
  });
  it('compares beyond one limb', () => {
    const ones = '1'.repeat(70);
    expect(takenItem('casez', ones, [`0${'?'.repeat(69)}`, `1${'?'.repeat(69)}`])).toBe(1);
    expect(takenItem('case', ones, [`0${ones.slice(1)}`, ones])).toBe(1);
  });
});

describe('conditions', () => {
  it('EXP-35: if (x) takes the else branch, 9.4', () => {
    expect(['x', 'z', '0', 'xz', '0x'].map((value) => isTrue(bitsOf(value)))).toEqual([
      false,
      false,
      false,
      false,
      false,
    ]);
    expect(['1', '1x', 'z1', `1${'0'.repeat(40)}`].every((value) => isTrue(bitsOf(value)))).toBe(true);
    expect(['0', '00', 'x', '0x', '1'].map((value) => isFalse(bitsOf(value)))).toEqual([
      true,
      true,
      false,
      false,
      false,
    ]);
  });
  it('EXP-36 and 5.1.13: an ambiguous condition combines both arms', () => {
    const choose = (condition: string) => toBinary(conditional(bitsOf(condition), bitsOf('110x'), bitsOf('1000')));
    expect(['1', '0', 'x', 'z', '0x', '1x'].map(choose)).toEqual(['110x', '1000', '1x0x', '1x0x', '1x0x', '110x']);
  });
});

describe('edges', () => {
  const digits: readonly Digit[] = ['0', '1', 'x', 'z'];
  const table = { '-': null, p: 'posedge', n: 'negedge' } as const;
  const rows = { 0: '-ppp', 1: 'n-nn', x: 'np--', z: 'np--' } as const;

  for (const from of digits) {
    for (const [column, to] of digits.entries()) {
      const expected = table[rows[from][column] as keyof typeof table];
      it(`EDGE-1, Table 9-1: ${from} to ${to} is ${expected ?? 'no edge'}`, () =>
        expect(edgeOf(from, to)).toBe(expected));
    }
  }

  it('EDGE-3: x to 0 is a negative edge, x to 1 a positive one', () => {
    expect([edgeOf('x', '0'), edgeOf('x', '1')]).toEqual(['negedge', 'posedge']);
  });

  it('for a register only an edge between known levels is certain', () => {
    expect([hardwareEdge('0', '1'), hardwareEdge('1', '0')]).toEqual(['rising', 'falling']);
    for (const unknown of ['x', 'z'] as const) {
      expect([hardwareEdge('0', unknown), hardwareEdge(unknown, '1')]).toEqual(['perhaps-rising', 'perhaps-rising']);
      expect([hardwareEdge('1', unknown), hardwareEdge(unknown, '0')]).toEqual(['perhaps-falling', 'perhaps-falling']);
    }
    expect([hardwareEdge('x', 'z'), hardwareEdge('z', 'x'), hardwareEdge('1', '1')]).toEqual([null, null, null]);
  });
});

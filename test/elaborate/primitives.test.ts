// User-defined primitives (IEEE 1364-2005 8): what their tables say, against the netlist evaluated at every input; clocks,
// controls and latches told from rows; what no hardware is.
import { describe, expect, test } from 'vitest';
import { fromNumber, toBinary } from '../../server/src/netlist/four-state';
import type { Netlist } from '../../server/src/netlist/netlist';
import { netlistOf } from '../tools/elaborated';
import { valuesOf } from './evaluate-netlist';
import { bitText, latchOf, nodeText, registerOf, signalOf } from './netlist-text';

const reasons = (complaints: readonly { readonly id: string; readonly reason: string }[]) =>
  complaints.map(({ id, reason }) => `${id} ${reason}`);

async function used(primitive: string, ports: string, connections: string): Promise<Netlist> {
  const { netlist, complaints } = await netlistOf(`${primitive} module m(${ports}); p u(${connections}); endmodule`);
  expect(complaints).toEqual([]);
  return netlist;
}

/** The digit a table gives for levels of its inputs: the first row that they match, else x (8.1.4). */
function lookedUp(rows: readonly (readonly [string, string])[], levels: string): string {
  const matches = (row: string) => [...row].every((symbol, index) => '?b'.includes(symbol) || symbol === levels[index]);
  return rows.find(([row]) => matches(row))?.[1] ?? 'x';
}

describe('by levels alone', () => {
  test.each([
    [
      'a multiplexer',
      [
        ['01?', '1'],
        ['00?', '0'],
        ['1?1', '1'],
        ['1?0', '0'],
        ['x00', '0'],
        ['x11', '1'],
      ],
    ],
    [
      'a carry',
      [
        ['00?', '0'],
        ['0?0', '0'],
        ['?00', '0'],
        ['11?', '1'],
        ['1?1', '1'],
        ['?11', '1'],
      ],
    ],
    [
      'with inputs that no row names',
      [
        ['0b1', '1'],
        ['110', '0'],
      ],
    ],
  ] as const)('%s', async (_, rows) => {
    const body = rows.map(([row, next]) => `${[...row].join(' ')} : ${next};`).join(' ');
    const text = `primitive p(y, a, b, c); output y; input a, b, c; table // rows\n ${body} endtable endprimitive`;
    const netlist = await used(text, 'input [2:0] v, output y', 'y, v[2], v[1], v[0]');
    for (let value = 0; value < 8; value++) {
      const result = valuesOf(netlist, { inputs: { v: fromNumber(3, value) } })(signalOf(netlist, 'y').node);
      expect(toBinary(result)).toBe(lookedUp(rows, value.toString(2).padStart(3, '0')));
    }
  });

  test('rows that leave the state alone are a latch', async () => {
    const text =
      'primitive p(output reg q, input g, d); table 1 0 : ? : 0; 1 1 : ? : 1; 0 ? : ? : -; endtable endprimitive';
    const netlist = await used(text, 'input g, d, output q', 'q, g, d');
    const latch = latchOf(netlist, 'u.q');
    for (const [g, d] of [
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
    ]) {
      const value = valuesOf(netlist, { inputs: { g: fromNumber(1, g), d: fromNumber(1, d) } });
      const isOpen = toBinary(value(latch.gate.node)) === (latch.active === 'high' ? '1' : '0');
      expect(isOpen).toBe(g === 1);
      if (isOpen) expect(toBinary(value(latch.data))).toBe(`${d}`);
    }
  });
});

describe('by edges', () => {
  const flop = (rows: string) =>
    `primitive p(q, c, d, n, r); output q; reg q; input c, d, n, r; initial q = 1'b1; table
      ${rows} (?0) ? ? ? : ? : -; ? * ? ? : ? : -; (0x) ? ? ? : ? : -; ? ? * ? : ? : x; ? ? ? (?1) : ? : -; endtable endprimitive`;

  test('a flip-flop with a clear, a notifier and a start value', async () => {
    const text = flop('(01) 0 ? ? : ? : 0; r 1 ? 1 : ? : 1; ? ? ? 0 : ? : 0;');
    const netlist = await used(text, 'input c, d, n, r, output q', 'q, c, d, n, r');
    const register = registerOf(netlist, 'u.q');
    expect([bitText(netlist, register.clock), register.edge, toBinary(register.initial)]).toEqual([
      'u.c',
      'rising',
      '1',
    ]);
    expect(register.asynchronous.map(({ control, active }) => `${bitText(netlist, control)} ${active}`)).toEqual([
      'u.r low',
    ]);
    for (const d of [0, 1]) {
      const inputs = { c: fromNumber(1, 0), d: fromNumber(1, d), n: fromNumber(1, 0), r: fromNumber(1, 1) };
      expect(toBinary(valuesOf(netlist, { inputs })(register.data))).toBe(`${d}`);
    }
  });

  test('one that toggles reads its own state', async () => {
    const text =
      "primitive p(output reg q = 1'b0, input c); table f : 0 : 1; f : 1 : 0; r : ? : -; endtable endprimitive";
    const netlist = await used(text, 'input c, output q', 'q, c');
    const register = registerOf(netlist, 'u.q');
    expect(register.edge).toBe('falling');
    expect(nodeText(netlist, register.data)).toBe('select(u.q, 0, 1, 0)');
  });

  test('preset and clear that no row decides together (8.5)', async () => {
    const text = `primitive p(q, c, j, k, pre, clr); output q; reg q; input c, j, k, pre, clr; table
      ? ?? 01 : ? : 1; ? ?? *1 : 1 : 1; ? ?? 10 : ? : 0; ? ?? 1* : 0 : 0;
      r 00 11 : ? : -; r 01 11 : ? : 0; r 10 11 : ? : 1; r 11 11 : 0 : 1; r 11 11 : 1 : 0;
      f ?? ?? : ? : -; b *? ?? : ? : -; b ?* ?? : ? : -; endtable endprimitive`;
    const netlist = await used(text, 'input c, j, k, s, r, output q', 'q, c, j, k, s, r');
    const register = registerOf(netlist, 'u.q');
    const controls = register.asynchronous.map(
      ({ control, active, value }) => `${bitText(netlist, control)} ${active} ${nodeText(netlist, value)}`,
    );
    expect(controls).toEqual(['u.pre low 1', 'u.clr low 0']);
  });
});

describe('what is said', () => {
  test.each([
    [
      'both edges of one input',
      'primitive p(q, c); output q; reg q; input c; table * : 0 : 1; * : 1 : 0; endtable endprimitive',
      'construct',
    ],
    [
      'two clocks',
      'primitive p(q, c, d); output q; reg q; input c, d; table r ? : ? : 1; ? r : ? : 0; endtable endprimitive',
      'construct',
    ],
    [
      'a table by level that asks for the state',
      'primitive p(q, c); output q; reg q; input c; table 1 : 0 : 1; 0 : ? : -; endtable endprimitive',
      'construct',
    ],
    ['a row too short', 'primitive p(y, a, b); output y; input a, b; table 0 : 1; endtable endprimitive', 'construct'],
    ['no rows', 'primitive p(y, a, b); output y; input a, b; table endtable endprimitive', 'construct'],
    ['no table', 'primitive p(y, a, b); output y; input a, b; endprimitive', 'construct'],
    ['half a row', 'primitive p(y, a); output y; input a; table 0 : 1; 1 : endtable endprimitive', 'construct'],
  ])('%s', async (_, text, reason) => {
    const { netlist, complaints } = await netlistOf(
      `${text} module m(input a, b, output y, z); p u(y, a, b); buf (z, b); endmodule`,
    );
    expect(reasons(complaints).every((each) => each === `unsupported ${reason}`)).toBe(true);
    expect(complaints.length).toBeGreaterThan(0);
    expect(netlist.signals.map(({ name }) => name)).toEqual(['a', 'b', 'y', 'z']);
  });

  test('a delay, which is not followed', async () => {
    const text = 'primitive p(y, a); output y; input a; table 0 : 1; 1 : 0; endtable endprimitive';
    for (const instance of ['p #2 u(y, a);', 'p #2 (y, a);']) {
      const { complaints } = await netlistOf(`${text} module m(input a, output y); ${instance} endmodule`);
      expect(reasons(complaints)).toEqual(['unsupported ignored-delay']);
    }
  });

  test('a primitive is no top', async () => {
    const { elaboration } = await netlistOf(
      'primitive p(y, a); output y; input a; table 0 : 1; 1 : 0; endtable endprimitive module m(input a, output y); endmodule',
    );
    expect(elaboration.top).toBe('m');
    expect(elaboration.otherTops).toEqual([]);
  });
});

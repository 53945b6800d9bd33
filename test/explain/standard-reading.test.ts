// Definition 15: where the hardware reading is unknown and the standard's is not, an account gives both. The standard's
// rules are IEEE 1364-2005 9.4 (if), 9.5 (case) and 5.1.13 with Table 5-21 (?:), from memory.
import { describe, expect, it } from 'vitest';
import type { Places } from '../../server/src/explain/places';
import { standardDigit } from '../../server/src/explain/standard-reading';
import type { Netlist } from '../../server/src/netlist/netlist';
import { runTimed } from '../predict/timed';
import { circuit, type Circuit, type Wire } from '../tools/circuit';

/** `y` is made by `build` from an unknown bit `u` and constants; every node stands for `text`. */
function standardOf(
  text: string,
  build: (made: Circuit, u: Wire, constant: (digits: string) => Wire) => Wire,
): string | null {
  const made = circuit('choice');
  const clk = made.input('clk');
  const u = made.register('u', { clock: clk, data: (self) => self, initial: 'x' });
  const value = made.register('v', { width: 2, clock: clk, data: (self) => self, initial: '10' });
  made.output(
    'y',
    build(made, u, (digits) => (digits === '1' ? value.bit(1) : value.bit(0))),
  );
  const netlist: Netlist = made.build();
  const { waves } = runTimed(netlist, { clocks: { clk: { period: 20 } }, until: 100, start: 'x' });
  const places: Places = {
    spanOf: () => ({ file: '', line: 1, column: 1, endLine: 1, endColumn: 1 }),
    textOf: () => text,
    writtenIn: () => null,
  };
  const y = netlist.signals.find(({ name }) => name === 'y');
  return y === undefined
    ? null
    : standardDigit({ netlist, places, waves }, { node: y.node, bit: 0 }, { at: 50_000, side: 'after' });
}

describe('an unknown condition', () => {
  it('of if takes the else branch', () => {
    expect(standardOf('u', (made, u, constant) => made.mux(u, constant('1'), constant('0')))).toBe('0');
    expect(standardOf('u', (made, u, constant) => made.mux(u, constant('0'), constant('1')))).toBe('1');
  });

  it('of ?: merges in both readings: nothing to say', () => {
    expect(standardOf('u ? a : b', (made, u, constant) => made.mux(u, constant('1'), constant('0')))).toBeNull();
  });

  it('that ends in the same value in both readings has nothing to say', () => {
    expect(standardOf('u', (made, u, constant) => made.mux(u, constant('1'), constant('1')))).toBeNull();
  });
});

describe('an unknown selector of a case', () => {
  const selector = (made: Circuit, u: Wire, constant: (digits: string) => Wire) => made.concat(u, constant('1'));

  it('matches no known label and takes the default', () => {
    const digit = standardOf('case (s) 0: y = 1; default: y = 0; endcase', (made, u, constant) =>
      made.select(selector(made, u, constant), [['11', constant('1')]], constant('0')),
    );
    expect(digit).toBe('0');
  });

  it('of casex matches any digit there', () => {
    const digit = standardOf('casex (s) 3: y = 1; default: y = 0; endcase', (made, u, constant) =>
      made.select(selector(made, u, constant), [['11', constant('1')]], constant('0')),
    );
    expect(digit).toBe('1');
  });

  it('whose labels name every value is not told about: its default is not in the netlist', () => {
    const digit = standardOf('case (s) …', (made, u, constant) =>
      made.select(u, [['1', constant('1')]], constant('0')),
    );
    expect(digit).toBeNull();
  });
});

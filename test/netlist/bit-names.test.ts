// Names of bits as the report prints them.

import { describe, expect, it } from 'vitest';
import { createBitNames, signalBitName, signalSliceName } from '../../server/src/netlist/bit-names';
import type { Bit } from '../../server/src/netlist/netlist';
import { sourceBit } from '../../server/src/netlist/trace';
import { circuit, type Wire } from '../tools/circuit';

const bitOf = (wire: Wire, bit = 0): Bit => ({ node: wire.node, bit });

describe('the name of a bit', () => {
  it('is its signal with the declared index, or the bare signal for a scalar', () => {
    const c = circuit();
    const clk = c.input('clk');
    const up = c.input('up', { range: [0, 7] });
    const down = c.input('down', { range: [11, 4] });
    const one = c.input('one', { range: [3, 3] });
    const netlist = c.build();
    const names = createBitNames(netlist);
    expect([clk, up, down, one].map((wire) => names.nameOf(bitOf(wire)))).toEqual([
      'clk',
      'up[7]',
      'down[4]',
      'one[3]',
    ]);
    expect(names.nameOf(bitOf(up, 7))).toBe('up[0]');
    expect(names.nameOf(sourceBit(netlist.nodes, bitOf(down, 7)))).toBe('down[11]');
  });

  it('of a register bit is its own, wherever it is read', () => {
    const c = circuit();
    const clk = c.input('clk');
    const q = c.registers('u1.q', { width: 4 }, [
      { low: 0, width: 1, clock: clk, data: (self) => c.not(self.bit(0)) },
      { low: 1, width: 3, clock: (self) => self.bit(0), data: (self) => c.not(self.bits(3, 1)) },
    ]);
    const copy = c.output('copy', c.net('u2.d', q.bits(2, 1)));
    const netlist = c.build();
    const names = createBitNames(netlist);
    expect(names.nameOf({ node: netlist.registers[1].node, bit: 2 })).toBe('u1.q[3]');
    expect([0, 1].map((bit) => names.nameOf(bitOf(copy, bit)))).toEqual(['copy[0]', 'copy[1]']);
    expect([0, 1].map((bit) => names.canonicalNameOf(bitOf(copy, bit)))).toEqual(['u1.q[1]', 'u1.q[2]']);
  });

  it('of an operator is the first net it drives directly', () => {
    const c = circuit();
    const [a, b] = [c.input('a'), c.input('b')];
    const gate = c.and(a, b);
    const outside: Wire = c.net('outside', () => inside);
    const inside = c.net('u1.gated', gate);
    c.net('also', gate);
    const pair = c.concat(c.or(a, b), c.xor(a, b));
    const both = c.net('both', pair);
    const names = createBitNames(c.build());
    expect(names.nameOf(bitOf(gate))).toBe('u1.gated');
    expect(names.canonicalNameOf(bitOf(outside))).toBe('u1.gated');
    expect(names.canonicalNameOf(bitOf(both, 1))).toBe('both[1]');
  });

  it('is nothing for a part of an expression or a constant', () => {
    const c = circuit();
    const [a, b] = [c.input('a'), c.input('b')];
    const unnamed = c.and(a, b);
    const tied = c.net('tied', c.constant('1'));
    const names = createBitNames(c.build());
    expect(names.nameOf(bitOf(unnamed))).toBeNull();
    expect(names.nameOf(bitOf(tied))).toBe('tied');
    expect(names.canonicalNameOf(bitOf(tied))).toBeNull();
  });

  it('of a black box output is the net it drives, else its pin', () => {
    const c = circuit();
    const a = c.input('a');
    const { clkout, lock } = c.blackBox('pll', 'vendor_pll', { inputs: { clkin: a }, outputs: { clkout: 1, lock: 2 } });
    c.net('fast', clkout);
    const names = createBitNames(c.build());
    expect(names.nameOf(bitOf(clkout))).toBe('fast');
    expect(names.nameOf(bitOf(lock, 1))).toBe('pll.lock[1]');
  });

  it('of what nothing drives is the net that reads it', () => {
    const c = circuit();
    const floating = c.undriven('floating', { width: 2 });
    const latch = c.latch('held', { gate: floating.bit(0), data: floating.bit(1), initial: '0' });
    const netlist = c.build();
    const names = createBitNames(netlist);
    expect(names.canonicalNameOf(bitOf(floating, 1))).toBe('floating[1]');
    expect(names.canonicalNameOf(bitOf(latch))).toBe('held');
  });

  it('of a slice carries both indices', () => {
    const c = circuit();
    c.input('v', { range: [7, 0] });
    c.input('r', { range: [0, 7] });
    c.input('s');
    const [v, r, s] = c.build().signals;
    expect(signalSliceName(v, 2, 3)).toBe('v[4:2]');
    expect(signalSliceName(r, 0, 2)).toBe('r[6:7]');
    expect([signalSliceName(v, 3, 1), signalSliceName(s, 0, 1), signalBitName(r, 0)]).toEqual(['v[3]', 's', 'r[7]']);
  });
});

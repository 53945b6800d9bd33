// The hand-made circuits that tests of other rooms stand on: what they promise about signals, slices and clocks.

import { describe, expect, it } from 'vitest';
import { toBinary } from '../../server/src/netlist/four-state';
import { topPorts } from '../../server/src/netlist/netlist';
import { Op } from '../../server/src/netlist/operators';
import { circuit } from '../tools/circuit';

describe('a circuit by hand', () => {
  it('gives each slice of a register its own clock', () => {
    const c = circuit();
    const clk = c.input('clk');
    c.registers('q', { width: 2 }, [
      { low: 0, width: 1, clock: clk, edge: 'falling', initial: '0', data: (q) => c.not(q.bit(0)) },
      { low: 1, width: 1, clock: (q) => q.bit(0), edge: 'falling', initial: '0', data: (q) => c.not(q.bit(1)) },
    ]);
    const netlist = c.build();
    const [first, second] = netlist.registers;
    expect([first.low, second.low]).toEqual([0, 1]);
    expect(first.clock.node).toBe(clk.node);
    expect(netlist.nodes.op[second.clock.node]).toBe(Op.net);
    expect(second.clock.node).toBe(netlist.pieces[netlist.signals[1].pieces[0]].node);
    expect(second.clockText).toBe('q[0]');
    expect(toBinary(second.initial)).toBe('0');
  });

  it('makes instances of dotted names, parents first', () => {
    const c = circuit('board');
    c.instance('u1', 'halver');
    const clk = c.input('clk');
    const q = c.register('u1.q', { clock: clk, initial: '0', data: (self) => c.not(self) });
    c.output('y', q);
    const netlist = c.build();
    expect(netlist.instances.map(({ path, module, parent }) => [path, module, parent])).toEqual([
      ['', 'board', null],
      ['u1', 'halver', 0],
    ]);
    expect(topPorts(netlist).map(({ name }) => name)).toEqual(['clk', 'y']);
    expect(netlist.registers[0].instance).toBe(1);
  });

  it('lets a register read what is declared after it', () => {
    const c = circuit();
    const clk = c.input('clk');
    const first = c.register('first', { clock: clk, data: () => second });
    const second: ReturnType<typeof c.net> = c.register('second', { clock: clk, data: first });
    const netlist = c.build();
    expect(netlist.registers[0].data).toBe(second.node);
    expect(netlist.registers[1].data).toBe(first.node);
  });
});

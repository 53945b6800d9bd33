// Accounts of circuits by hand: each chain of causes ends at the drive, and an edge that changes nothing says why.
import { describe, expect, it } from 'vitest';
import { findClocks } from '../../server/src/clocks/find-clocks';
import { type Account, accountOf } from '../../server/src/explain/account';
import { accountContext } from '../../server/src/explain/account-steps';
import { accountWords } from '../../server/src/explain/account-words';
import { findBits } from '../../server/src/explain/find-bits';
import type { Places } from '../../server/src/explain/places';
import { createBitNames } from '../../server/src/netlist/bit-names';
import type { Netlist } from '../../server/src/netlist/netlist';
import { nothingStated } from '../clocks/describe-clocks';
import { finish, plainSet, runTimed, type TimedOptions } from '../predict/timed';
import { circuit, type Wire } from '../tools/circuit';

/** Places made by hand: the line is where the place starts. */
const places: Places = {
  spanOf: ({ start }) => ({ file: 'test.v', line: start + 1, column: 1, endLine: start + 1, endColumn: 2 }),
  textOf: ({ start }) => `text ${start}`,
  writtenIn: () => null,
};

function account(netlist: Netlist, options: TimedOptions, signal: string, ns: number): Account {
  const { waves } = runTimed(netlist, options);
  const network = finish(findClocks(netlist, nothingStated));
  const context = accountContext({ netlist, network, names: createBitNames(netlist), places, waves });
  const [found] = findBits(netlist, signal) ?? [];
  if (found === undefined) throw new Error(`no ${signal}`);
  return accountOf(context, found.bit, found.name, ns * 1000);
}

const words = (told: Account) => accountWords(told).map((line) => line.replace(/ \(line \d+\)/, ''));

/** Four falling-edge stages, 5 ns each: counts up. */
function ripple(): Netlist {
  const made = circuit('ripple');
  const clk = made.input('clk');
  made.registers(
    'q',
    { width: 4, port: 'output' },
    [0, 1, 2, 3].map((low) => ({
      low,
      width: 1,
      edge: 'falling' as const,
      clock: low === 0 ? clk : (self: Wire) => self.bit(low - 1),
      data: (self: Wire) => made.not(self.bit(low)),
      initial: '0',
    })),
  );
  return made.build();
}

const slow: TimedOptions = { clocks: { clk: { period: 40 } }, delays: plainSet('slow', { register: 5 }), until: 700 };

describe('the account of a ripple', () => {
  it('goes back from the last stage to the root edge', () => {
    const told = account(ripple(), slow, 'q[3]', 340);
    expect(told).toMatchObject({ outcome: 'changed', from: '0', to: '1' });
    expect(told.steps.map(({ at, signal, what }) => [what, signal, at / 1000])).toEqual([
      ['sampled', 'q[3]', 340],
      ['sampled', 'q[2]', 335],
      ['sampled', 'q[1]', 330],
      ['sampled', 'q[0]', 325],
      ['drive', 'clk', 320],
    ]);
    expect(words(told)).toEqual([
      'q[3] rose at 340 ns because its clock q[2] fell at 335 ns',
      'it sampled 1, with q[3] at 0',
      'q[2] fell at 335 ns because its clock q[1] fell at 330 ns',
      'q[1] fell at 330 ns because its clock q[0] fell at 325 ns',
      'q[0] fell at 325 ns because its clock clk fell at 320 ns',
      'clk fell at 320 ns, as driven',
      'in all 20 ns from clk: q[0] 5 ns, q[1] 5 ns, q[2] 5 ns and q[3] 5 ns',
    ]);
  });

  it('of an edge that changes nothing names the edge that would', () => {
    const told = account(ripple(), slow, 'q[0]', 60);
    expect(told).toMatchObject({ outcome: 'held', held: { kind: 'other-edge', edge: 'falling' } });
    expect(words(told)[0]).toBe('q[0] kept 1 at 60 ns because it acts on clk falling only');
  });

  it('at the edge that is answered later tells of the answer', () => {
    const told = account(ripple(), slow, 'q[0]', 40);
    expect(told).toMatchObject({ outcome: 'answered', at: 40_000, from: '0', to: '1' });
    expect(told.steps[0].at).toBe(45_000);
  });

  it('between edges tells since when it stands', () => {
    expect(words(account(ripple(), slow, 'q[0]', 50))[0]).toBe(
      'q[0] is 1 at 50 ns: nothing reaches it at that instant, since 45 ns',
    );
    expect(words(account(ripple(), slow, 'q[3]', 50))).toEqual([
      'q[3] is 0 at 50 ns: nothing reaches it at that instant, it has not changed since the start',
    ]);
  });
});

/** d is sampled while en; rst clears at once. */
function enabled(): Netlist {
  const made = circuit('enabled');
  const [clk, rst, en, d] = ['clk', 'rst', 'en', 'd'].map((name) => made.input(name));
  made.register('q', {
    clock: clk,
    data: (self) => made.mux(en, d, self),
    enables: [{ condition: en }],
    asynchronous: [{ control: rst, active: 'high', value: '0' }],
    initial: '1',
  });
  return made.build();
}

const held = (inputs: Record<string, string>, release: number): TimedOptions => ({
  clocks: { clk: { period: 20 } },
  resets: { rst: { release } },
  inputs,
  until: 100,
});

describe('the account of an edge that changes nothing', () => {
  it('names the asynchronous control that holds', () => {
    const told = account(enabled(), held({ en: '1', d: '1' }, 25), 'q', 10);
    expect(told.held).toMatchObject({ kind: 'control', control: 'rst', active: 'high' });
    expect(words(told)[0]).toBe('q kept 0 at 10 ns because rst holds it while high');
  });

  it('names the enable that is not met, with what it was', () => {
    const told = account(enabled(), held({ en: '0', d: '1' }, 5), 'q', 10);
    expect(told.held).toMatchObject({ kind: 'not-enabled', operands: [{ signal: 'en', value: '0' }] });
  });

  it('says that it sampled what it held', () => {
    const told = account(enabled(), held({ en: '1', d: '0' }, 5), 'q', 10);
    expect(told.held).toMatchObject({ kind: 'same-value', value: '0' });
    expect(words(told)[0]).toContain('because it sampled 0, which it already held');
  });
});

describe('the account of logic and controls', () => {
  it('passes over parts without a name in words and keeps them in the data', () => {
    const made = circuit('decoder');
    const clk = made.input('clk');
    const a = made.register('a', { clock: clk, data: (self) => made.not(self), initial: '0' });
    const b = made.register('b', { clock: clk, data: made.constant('1'), initial: '0' });
    made.output('y', made.or(made.and(a, b), made.not(b)));
    const told = account(made.build(), { clocks: { clk: { period: 20 } }, until: 100 }, 'y', 31);
    expect(told.steps.map(({ signal, what }) => [what, signal])).toEqual([
      ['logic', 'y'],
      ['logic', null],
      ['sampled', 'a'],
      ['drive', 'clk'],
    ]);
    expect(words(told)).toEqual([
      'y fell at 31 ns because a fell at 31 ns',
      'it became 0, with a at 0 and b at 1',
      'a fell at 31 ns because its clock clk rose at 30 ns',
      'clk rose at 30 ns, as driven',
    ]);
  });

  it('says which control loaded', () => {
    const made = circuit('cleared');
    const clk = made.input('clk');
    const q = made.register('q', { width: 2, clock: clk, data: (self) => made.increment(self), initial: '00' });
    const clear = made.net('clear', made.reduceAnd(q));
    made.register('t', {
      clock: clk,
      data: made.constant('1'),
      initial: '0',
      asynchronous: [{ control: clear, active: 'high', value: '0' }],
    });
    const told = account(made.build(), { clocks: { clk: { period: 20 } }, until: 200 }, 't', 52);
    expect(words(told).slice(0, 2)).toEqual([
      't fell at 52 ns because clear rose at 51 ns, which loads it while high',
      'clear rose at 51 ns because q[0] rose at 51 ns',
    ]);
  });
});

describe('names of bits', () => {
  it('are found as written, in declared indices', () => {
    const made = circuit('names');
    made.input('up', { width: 3, range: [0, 2] });
    made.input('s');
    const netlist = made.build();
    expect(findBits(netlist, 'up')?.map(({ name, bit }) => `${name}=${bit.bit}`)).toEqual([
      'up[0]=2',
      'up[1]=1',
      'up[2]=0',
    ]);
    expect(findBits(netlist, 'up[1:2]')?.map(({ name }) => name)).toEqual(['up[1]', 'up[2]']);
    expect([findBits(netlist, 'up[3]'), findBits(netlist, 's[0]'), findBits(netlist, 'none')]).toEqual([
      null,
      null,
      null,
    ]);
  });
});

// Long runs of circuits by hand: what the engine must carry beside plain logic, what it leaves to the interpreter and
// why, and that a run can be stopped, told again and brought back to any period.

import { expect, it } from 'vitest';
import { compileModule } from '../../server/src/module-compiler';
import type { Netlist } from '../../server/src/netlist/netlist';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { compiledRun, finish, type Held, type RunOptions, told } from './compiled-run';

/** Compiled and interpreted tell the same; gives the compiled run. */
function agreed(netlist: Netlist, held: Held = {}, options: RunOptions = {}, periods = 60) {
  const compiled = compiledRun(netlist, held, options);
  expect(told(compiled, periods)).toEqual(told(compiledRun(netlist, held, { ...options, compile: 'step' }), periods));
  expect(told(compiledRun(netlist, held, { ...options, compile: null }), periods)).toEqual(
    told(compiledRun(netlist, held, { ...options, compile: 'step' }), periods),
  );
  return compiled;
}

function built(make: (c: Circuit, clk: Wire) => void): Netlist {
  const c = circuit();
  make(c, c.input('clk'));
  return c.build();
}

const counter = (width: number, initial = '0'.repeat(width)) =>
  built((c, clk) => {
    const count = c.register('count', { width, clock: clk, initial, data: (self) => c.increment(self) });
    c.output('top', count.bit(width - 1));
  });

it('carries two clocks with both edges, the second slower', () => {
  const c = circuit();
  const [fast, slow] = [c.input('fast'), c.input('slow')];
  const count = c.register('count', { width: 5, clock: fast, initial: '00000', data: (self) => c.increment(self) });
  c.register('seen', { width: 5, clock: slow, edge: 'falling', initial: '00000', data: count });
  c.register('both', { clock: slow, initial: '0', data: count.bit(1) });
  const steps = [
    { fast: 1 },
    { fast: 0, slow: 1 },
    { fast: 1 },
    { fast: 0 },
    { fast: 1, slow: 0 },
    { fast: 0 },
  ] as const;
  const run = agreed(c.build(), {}, { steps });
  expect([run.refusal, run.interpreted]).toEqual([null, 0]);
});

it('carries a ripple counter, every stage clocked by the one before it', () => {
  const netlist = built((c, clk) => {
    let clock = clk;
    for (let stage = 0; stage < 12; stage++) {
      clock = c.register(`q${stage}`, { clock, edge: 'falling', initial: '0', data: (self) => c.not(self) });
    }
  });
  const run = agreed(netlist, {}, {}, 300);
  expect([run.refusal, run.interpreted]).toEqual([null, 0]);
});

it('carries a gated clock whose enable passes a latch', () => {
  const netlist = built((c, clk) => {
    const count = c.register('count', { width: 3, clock: clk, initial: '000', data: (self) => c.increment(self) });
    const open = c.latch('open', { gate: clk, active: 'low', data: count.bit(2), initial: '0' });
    c.register('gated', { width: 4, clock: c.and(clk, open), initial: '0000', data: (self) => c.increment(self) });
  });
  const run = agreed(netlist);
  expect([run.refusal, run.interpreted]).toEqual([null, 0]);
});

it('carries an asynchronous control that comes out of a register of the same clock', () => {
  const netlist = built((c, clk) => {
    const count = c.register('count', { width: 4, clock: clk, initial: '0000', data: (self) => c.increment(self) });
    const clear = c.register('clear', { clock: clk, initial: '0', data: c.equal(count, c.constant('1001')) });
    c.register('victim', {
      width: 6,
      clock: clk,
      initial: '000000',
      data: (self) => c.increment(self),
      asynchronous: [{ control: clear, active: 'high', value: '000101' }],
    });
  });
  const run = agreed(netlist);
  expect([run.refusal, run.interpreted]).toEqual([null, 0]);
});

it('leaves a sample that hangs on the order within an instant to the interpreter, period by period', () => {
  const netlist = built((c, clk) => {
    const half = c.register('half', { clock: clk, initial: '0', data: (self) => c.not(self) });
    const data = c.register('data', { width: 3, clock: clk, initial: '000', data: (self) => c.increment(self) });
    c.register('late', { width: 3, clock: half, initial: '000', data });
  });
  const run = agreed(netlist);
  expect(run.refusal).toBe(null);
  expect(run.interpreted).toBeGreaterThan(20);
  const ordered = agreed(netlist, {}, { order: () => 'old' });
  expect(ordered.interpreted).toBe(0);
  expect(agreed(netlist, {}, { order: () => 'new' }).interpreted).toBe(0);
});

it('leaves a count that clears itself, a loop without a register and a power to the interpreter, and says why', () => {
  const clearing = built((c, clk) => {
    c.register('count', {
      width: 4,
      clock: clk,
      initial: '0000',
      data: (self) => c.increment(self),
      asynchronous: [{ control: (self) => c.and(self.bit(3), self.bit(1)), active: 'high', value: '0000' }],
    });
  });
  expect(agreed(clearing).refusal).toBe('clears-itself');
  const power = built((c, clk) => {
    const count = c.register('count', { width: 4, clock: clk, initial: '0001', data: (self) => c.increment(self) });
    c.net('power', c.operator(40, 4, [count, count]));
  });
  expect(agreed(power).refusal).toBe('operator-not-compiled');
  expect(agreed(counter(4), {}, { compile: null }).refusal).toBe(null);
  expect(agreed(counter(40), {}, { compile: null }).refusal).toBe('no-compiler');
});

it('goes on with less code once nothing is unknown any more, and tells the same', () => {
  const netlist = built((c, clk) => {
    let data: Wire = c.register('source', {
      width: 8,
      clock: clk,
      initial: '00000001',
      data: (self) => c.increment(self),
    });
    for (let stage = 0; stage < 5; stage++) data = c.register(`stage${stage}`, { width: 8, clock: clk, data });
    c.register('sum', { width: 8, clock: clk, initial: '00000000', data: (self) => c.add(self, data) });
  });
  expect(agreed(netlist, {}, {}, 500).refusal).toBe(null);
});

it('comes back to the state it calls home, after exactly one period of the circuit', () => {
  const run = compiledRun(counter(12), {}, { returns: true });
  finish(run.advance(100, null));
  run.settleHome();
  expect(finish(run.advanceHome(4095))).toBe(false);
  expect(finish(run.advanceHome(10_000))).toBe(true);
  expect(run.periods).toBe(100 + 4096);
});

it('shows any window of a long run again', () => {
  const windowOf = (from: number, compile: typeof compileModule | null) => {
    const run = compiledRun(counter(26), {}, { compile, watched: ['top'] });
    if (compile !== null) finish(run.advance(5_000_000, null));
    finish(run.goTo(from));
    return [run.periods, told(run, 40).length];
  };
  expect(windowOf(4_194_290, compileModule)).toEqual([4_194_290, 1]);
  const run = compiledRun(counter(22), {}, { watched: ['top'] });
  finish(run.advance(5_000_000, null));
  finish(run.goTo(2_097_100));
  expect(told(run, 100)[0]).toBe('2097151.0 0: 1,0 / 0,0');
  finish(run.goTo(100));
  expect(run.machine().values.views[run.machine().plan.registers[0].position].a[0]).toBe(100);
});

it('pauses after a fixed count of work, so that it can be dropped', () => {
  const run = compiledRun(counter(26), {});
  const steps = run.advance(2 ** 26, null);
  let pauses = 0;
  while (steps.next().done !== true) pauses += 1;
  expect(pauses).toBeGreaterThan(60);
});

it('tells changes of words wider than 64 bits by halves, and logs more than its memory holds', () => {
  const wide = counter(100, `${'0'.repeat(36)}${'1'.repeat(60)}0000`);
  agreed(wide, {}, {}, 40);
  const run = compiledRun(counter(26), {}, { watched: ['count'] });
  let [last, gaps] = [0, 0];
  finish(
    run.advance(200_000, (_, [low]) => {
      if (low !== last + 1) gaps += 1;
      last = low;
    }),
  );
  expect([last, gaps]).toEqual([200_000, 0]);
});

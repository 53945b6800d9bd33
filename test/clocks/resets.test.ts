// Definition 14, and the facts that definition 36 rests on: what resets, and whether its release waits for the clock.
import { describe, expect, it } from 'vitest';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { describeClocks, type Described } from './describe-clocks';
import { row } from './parts';

const linesOf = ({ network }: Described) =>
  network.resets.map(
    ({ name, active, kind, release, registers }) => `${name} ${active} ${kind} ${release} ${registers.length}`,
  );

const study = (build: (c: Circuit, clk: Wire) => void) => {
  const c = circuit();
  build(c, c.input('clk'));
  return describeClocks(c.build());
};

const cleared = (c: Circuit, reset: Wire, data: Wire) => c.mux(reset, c.constant('0'.repeat(data.width)), data);

describe('a synchronous reset', () => {
  it('is a port that first of all forces constants', () => {
    const found = study((c, clk) => {
      const rst = c.input('rst');
      c.register('q', { width: 4, clock: clk, process: 'p', data: (q) => cleared(c, rst, c.increment(q)) });
      c.register('r', { clock: clk, process: 'p', data: (r) => c.mux(c.not(rst), c.not(r), c.constant('1')) });
    });
    expect(linesOf(found)).toEqual(['rst high synchronous raw 2']);
    expect(found.register('q[3:0]').synchronous).toMatchObject([{ name: 'rst', active: 'high' }]);
    expect(found.register('r').synchronous).toMatchObject([{ name: 'rst', active: 'high' }]);
  });

  it('may be active low, and written as a comparison', () => {
    const found = study((c, clk) => {
      const rst_n = c.input('rst_n');
      c.register('q', { clock: clk, data: (q) => cleared(c, c.equal(rst_n, c.constant('0')), c.not(q)) });
    });
    expect(linesOf(found)).toEqual(['rst_n low synchronous raw 1']);
  });

  it('may be a port behind two flip-flops', () => {
    const found = study((c, clk) => {
      const rst = row(c, 'sync', 2, clk, c.input('rst'));
      c.register('q', { clock: clk, data: (q) => cleared(c, rst, c.not(q)) });
    });
    expect(linesOf(found)).toEqual(['sync2 high synchronous synchronized 1']);
  });

  it('is not a count that ends: if (cnt == 9) cnt <= 0', () => {
    const found = study((c, clk) => {
      c.register('cnt', {
        width: 4,
        clock: clk,
        data: (q) => cleared(c, c.equal(q, c.constant('1001')), c.increment(q)),
      });
    });
    expect(linesOf(found)).toEqual([]);
  });

  it('is not a clear from another register, nor from one flip-flop behind a port', () => {
    const found = study((c, clk) => {
      const clear = c.register('clear', { clock: clk, data: c.input('d') });
      c.register('q', { clock: clk, data: (q) => cleared(c, clear, c.not(q)) });
    });
    expect(linesOf(found)).toEqual([]);
  });

  it('is not what leaves another register of the process alone, or loads it with data', () => {
    const half = study((c, clk) => {
      const rst = c.input('rst');
      c.register('q', { clock: clk, process: 'p', data: (q) => cleared(c, rst, c.not(q)) });
      c.register('r', { clock: clk, process: 'p', data: (r) => c.not(r) });
    });
    expect(linesOf(half)).toEqual([]);
    const load = study((c, clk) => {
      c.register('q', { clock: clk, data: (q) => c.mux(c.input('load'), c.input('d'), c.not(q)) });
    });
    expect(linesOf(load)).toEqual([]);
  });

  it('is not what comes second to an enable', () => {
    const found = study((c, clk) => {
      const [rst, en] = ['rst', 'en'].map((name) => c.input(name));
      c.register('q', { clock: clk, data: (q) => c.mux(en, cleared(c, rst, c.not(q)), q) });
    });
    expect(linesOf(found)).toEqual([]);
    expect(found.register('q').enable).toMatchObject({ name: 'en', active: 'high' });
  });
});

describe('an enable', () => {
  const enableOf = (data: (c: Circuit, q: Wire) => Wire) =>
    study((c, clk) => c.register('q', { clock: clk, data: (q) => data(c, q) })).register('q').enable;

  it('is the one condition under which a register moves', () => {
    expect(enableOf((c, q) => c.mux(c.input('en'), c.not(q), q))).toMatchObject({ name: 'en', active: 'high' });
    expect(enableOf((c, q) => c.mux(c.input('stall'), q, c.not(q)))).toMatchObject({ name: 'stall', active: 'low' });
    expect(enableOf((c, q) => cleared(c, c.input('rst'), c.mux(c.not(c.input('hold')), c.not(q), q)))).toMatchObject({
      name: 'hold',
      active: 'low',
    });
  });

  it('is none where there are two, or where it is an expression without a name', () => {
    const two = (c: Circuit, q: Wire) => c.mux(c.input('a'), c.mux(c.input('b'), c.not(q), q), q);
    expect(enableOf(two)).toBeNull();
    expect(enableOf((c, q) => c.mux(c.and(c.input('a'), c.input('b')), c.not(q), q))).toBeNull();
    expect(enableOf((c, q) => c.mux(c.net('go', c.and(c.input('a'), c.input('b'))), c.not(q), q))?.name).toBe('go');
    expect(enableOf((c, q) => c.not(q))).toBeNull();
    expect(enableOf((c) => c.mux(c.input('s'), c.input('x'), c.input('y')))).toBeNull();
  });
});

describe('an asynchronous control', () => {
  const clearedBy = (c: Circuit, name: string, clock: Wire, control: Wire) =>
    c.register(name, { clock, data: (q) => c.not(q), asynchronous: [{ control, active: 'low', value: '0' }] });

  it('is named by its canonical bit, in priority order', () => {
    const found = study((c, clk) => {
      const rst_n = c.net('u1.rst_n', c.input('rst_n'));
      const asynchronous = [
        { control: rst_n, active: 'low' as const, value: '0' },
        { control: c.net('preset', c.not(c.input('set_n'))), active: 'high' as const, value: '1' },
      ];
      c.register('u1.q', { clock: clk, data: (q) => c.not(q), asynchronous });
    });
    expect(found.register('u1.q').asynchronous).toMatchObject([
      { name: 'rst_n', active: 'low' },
      { name: 'preset', active: 'high' },
    ]);
    expect(linesOf(found)).toEqual(['rst_n low asynchronous raw 1', 'preset high asynchronous raw 1']);
  });

  it('is raw from a port, one entry for all its registers', () => {
    const found = study((c, clk) => {
      const rst_n = c.input('rst_n');
      clearedBy(c, 'a', clk, rst_n);
      clearedBy(c, 'b', c.input('other'), rst_n);
    });
    expect(linesOf(found)).toEqual(['rst_n low asynchronous raw 2']);
    expect(found.network.resets[0].domains).toEqual([0, 1]);
  });

  /** A constant shifted through flip-flops that the raw reset clears, and what else these may be made of. */
  const synchronizer = (c: Circuit, clk: Wire, raw: Wire, length: number) =>
    row(c, 'release', length, clk, c.constant('1'), [{ control: raw, active: 'low', value: '0' }]);

  it('is synchronized through two flip-flops that it clears, and then so is the raw one', () => {
    const found = study((c, clk) => clearedBy(c, 'q', clk, synchronizer(c, clk, c.input('rst_n'), 2)));
    expect(linesOf(found)).toEqual([
      'rst_n low asynchronous synchronized 2',
      'release2 low asynchronous synchronized 1',
    ]);
  });

  it('stays raw through one flip-flop, which may itself be caught by the release', () => {
    const found = study((c, clk) => clearedBy(c, 'q', clk, synchronizer(c, clk, c.input('rst_n'), 1)));
    expect(linesOf(found)).toEqual(['rst_n low asynchronous raw 1', 'release1 low asynchronous raw 1']);
  });

  it('is raw for a register of another domain than the synchronizer', () => {
    const found = study((c, clk) => clearedBy(c, 'q', c.input('other'), synchronizer(c, clk, c.input('rst_n'), 2)));
    expect(linesOf(found)[1]).toBe('release2 low asynchronous raw 1');
  });

  it('is raw where the port clears other registers beside the synchronizer', () => {
    const found = study((c, clk) => {
      const rst_n = c.input('rst_n');
      clearedBy(c, 'q', clk, synchronizer(c, clk, rst_n, 2));
      clearedBy(c, 'r', clk, rst_n);
    });
    expect(linesOf(found)[0]).toBe('rst_n low asynchronous raw 3');
  });

  it('is in step where a register of the domain that nothing forces gives it', () => {
    const found = study((c, clk) => {
      const soft = c.register('soft', { clock: clk, data: c.input('d') });
      clearedBy(c, 'q', clk, soft);
      clearedBy(c, 'r', clk, c.net('mixed', c.and(soft, c.input('rst_n'))));
    });
    expect(linesOf(found)).toEqual(['soft low asynchronous synchronized 1', 'mixed low asynchronous raw 1']);
  });
});

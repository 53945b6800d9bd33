// Definition 5, last sentence: what passes between domains, and which of it flip-flops in a row protect.
import { describe, expect, it } from 'vitest';
import type { ClockOptions } from '../../server/src/clocks/network';
import { circuit, type Circuit, type Wire } from '../tools/circuit';
import { describeClocks } from './describe-clocks';
import { counter, flop, row, toggle } from './parts';

/** `from -> to: synchronizer depth status`, with what else matters. */
function crossingsOf(build: (c: Circuit, a: Wire, b: Wire) => void, stated: Partial<ClockOptions> = {}) {
  const c = circuit();
  build(c, c.input('a'), c.input('b'));
  const found = describeClocks(c.build(), stated);
  const names = Object.keys(found.registers);
  return found.network.crossings.map(({ from, to, bits, throughLogic, synchronizer, depth, status }) => {
    const sources = from.map(({ name }) => name).join(' ');
    const logic = throughLogic ? ' through logic' : '';
    return `${sources} -> ${names[to]}: ${bits}${logic}, ${synchronizer} ${depth}, ${status}`;
  });
}

describe('a crossing', () => {
  it('is a register sampled by a register of another domain', () => {
    expect(crossingsOf((c, a, b) => flop(c, 'to', 'rising', b, toggle(c, 'from', 'rising', a)))).toEqual([
      'from -> to: 1, one-flop 1, bare',
    ]);
  });

  it('is none inside a domain, derived and inverted clocks included, nor from a port', () => {
    expect(
      crossingsOf((c, a, b) => {
        const half = toggle(c, 'half', 'rising', a);
        const by_half = toggle(c, 'by_half', 'falling', half);
        flop(c, 'back', 'falling', a, by_half);
        flop(c, 'port', 'rising', b, c.input('d'));
      }),
    ).toEqual([]);
  });

  it('is none between domains that a person relates', () => {
    const build = (c: Circuit, a: Wire, b: Wire) => flop(c, 'to', 'rising', b, toggle(c, 'from', 'rising', a));
    expect(crossingsOf(build, { related: [['a', 'b']] })).toEqual([]);
  });

  it('is accepted from a register stated static', () => {
    const build = (c: Circuit, a: Wire, b: Wire) =>
      flop(c, 'to', 'rising', b, flop(c, 'mode', 'rising', a, c.input('m', { width: 2 })));
    expect(crossingsOf(build, { static: ['mode'] })).toEqual(['mode[1:0] -> to[1:0]: 2, one-flop 1, accepted']);
    expect(crossingsOf(build)).toEqual(['mode[1:0] -> to[1:0]: 2, one-flop 1, bare']);
  });

  it('through logic names every source bit that is heard, and none of the own domain', () => {
    expect(
      crossingsOf((c, a, b) => {
        const n = counter(c, 'n', 4, 'rising', a);
        const own = toggle(c, 'own', 'rising', b);
        flop(c, 'to', 'rising', b, c.and(n.bit(1), c.or(n.bit(2), own)));
      }),
    ).toEqual(['n[2:1] -> to: 2 through logic, none 1, bare']);
  });

  it('by an enable is one as well: the enable is heard by what it holds', () => {
    expect(
      crossingsOf((c, a, b) => {
        const go = toggle(c, 'go', 'rising', a);
        c.register('to', { clock: b, data: (q) => c.mux(go, c.not(q), q) });
      }),
    ).toEqual(['go -> to: 1 through logic, none 1, bare']);
  });

  it('is told apart by sending domain', () => {
    expect(
      crossingsOf((c, a, b) => {
        const other = toggle(c, 'other', 'rising', c.input('third'));
        flop(c, 'to', 'rising', b, c.xor(toggle(c, 'from', 'rising', a), other));
      }),
    ).toEqual(['from -> to: 1 through logic, none 1, bare', 'other -> to: 1 through logic, none 1, bare']);
  });

  it('from a latch has no register', () => {
    expect(
      crossingsOf((c, a, b) => flop(c, 'to', 'rising', b, c.latch('held', { gate: a, data: c.input('d') }))),
    ).toEqual(['held -> to: 1, one-flop 1, bare']);
  });

  it('into a switched clock comes from each of its sources', () => {
    expect(
      crossingsOf((c, a, b) => {
        const from = toggle(c, 'from', 'rising', a);
        flop(c, 'to', 'rising', c.net('g', c.mux(c.input('s'), a, b)), from);
      }),
    ).toEqual(['from -> to: 1, one-flop 1, bare']);
  });
});

describe('flip-flops in a row', () => {
  const sent = (c: Circuit, a: Wire) => toggle(c, 'from', 'rising', a);

  it('protect one bit, two or three of them', () => {
    expect(crossingsOf((c, a, b) => row(c, 's', 2, b, sent(c, a)))).toEqual(['from -> s1: 1, two-flop 2, protected']);
    expect(crossingsOf((c, a, b) => row(c, 's', 3, b, sent(c, a)))).toEqual(['from -> s1: 1, three-flop 3, protected']);
  });

  it('may be written as one shift register', () => {
    expect(
      crossingsOf((c, a, b) => {
        const from = sent(c, a);
        const s = c.register('s', { width: 2, clock: b, data: (q) => c.concat(q.bit(0), from) });
        c.net('used', c.and(s.bit(1), c.input('x')));
      }),
    ).toEqual(['from -> s[1:0]: 1, two-flop 2, protected']);
  });

  it('may be cleared, synchronously or not', () => {
    expect(
      crossingsOf((c, a, b) => {
        const from = sent(c, a);
        const rst = c.input('rst');
        const zero = c.constant('0');
        const s1 = c.register('s1', { clock: b, process: 'p', data: c.mux(rst, zero, from) });
        c.register('s2', { clock: b, process: 'p', data: c.mux(rst, zero, s1) });
      }),
    ).toEqual(['from -> s1: 1, two-flop 2, protected']);
    expect(
      crossingsOf((c, a, b) =>
        row(c, 's', 2, b, sent(c, a), [{ control: c.input('rst'), active: 'high', value: '0' }]),
      ),
    ).toEqual(['from -> s1: 1, two-flop 2, protected']);
  });

  it('protect nothing where the first one is read by something else', () => {
    expect(
      crossingsOf((c, a, b) => {
        const s1 = flop(c, 's1', 'rising', b, sent(c, a));
        flop(c, 's2', 'rising', b, s1);
        flop(c, 'early', 'rising', b, c.and(s1, c.input('x')));
      }),
    ).toEqual(['from -> s1: 1, one-flop 1, bare']);
    expect(
      crossingsOf((c, a, b) => {
        const s1 = flop(c, 's1', 'rising', b, sent(c, a));
        flop(c, 's2', 'rising', b, s1);
        c.output('leak', s1);
      }),
    ).toEqual(['from -> s1: 1, one-flop 1, bare']);
  });

  it('are not enough where another domain clears the first one', () => {
    expect(
      crossingsOf((c, a, b) => {
        const clear = toggle(c, 'clear', 'rising', a);
        const s1 = c.register('s1', { clock: b, data: c.mux(clear, c.constant('0'), sent(c, a)) });
        flop(c, 's2', 'rising', b, s1);
      }),
    ).toEqual(['clear from -> s1: 2 through logic, two-flop 2, bare']);
  });

  it('do not count beyond logic between them, nor where the second has another clock', () => {
    expect(
      crossingsOf((c, a, b) => {
        const s1 = flop(c, 's1', 'rising', b, sent(c, a));
        flop(c, 's2', 'rising', b, c.not(s1));
      }),
    ).toEqual(['from -> s1: 1, one-flop 1, bare']);
    expect(
      crossingsOf((c, a, b) => {
        const s1 = flop(c, 's1', 'rising', b, sent(c, a));
        flop(c, 's2', 'rising', a, s1);
      }),
    ).toEqual(['from -> s1: 1, one-flop 1, bare', 's1 -> s2: 1, one-flop 1, bare']);
  });

  it('behind logic are there, and what they protect is still bare', () => {
    expect(crossingsOf((c, a, b) => row(c, 's', 2, b, c.and(sent(c, a), toggle(c, 'second', 'rising', a))))).toEqual([
      'from second -> s1: 2 through logic, two-flop 2, bare',
    ]);
  });

  it('of several bits bring each in, but not all of them together', () => {
    expect(
      crossingsOf((c, a, b) => {
        const n = counter(c, 'n', 4, 'rising', a);
        flop(c, 's2', 'rising', b, flop(c, 's1', 'rising', b, n));
      }),
    ).toEqual(['n[3:0] -> s1[3:0]: 4, two-flop 2, bare']);
  });
});

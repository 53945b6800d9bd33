// Delays of logic under the timed engine: inertia, directions, hazards. Stimuli are clocks driven once.
import { describe, expect, it } from 'vitest';
import { circuit, type Circuit, type DelayOption, type Wire } from '../tools/circuit';
import { plainSet, runTimed } from './timed';

/** ns as the `#` of a circuit. */
function delayOf(rise: number, fall = rise, toZ = Math.min(rise, fall)): DelayOption {
  return { rise: rise * 1000, fall: fall * 1000, toZ: toZ * 1000 };
}

/** An input that rises at `from` ns and falls `width` later, once. */
const pulse = (from: number, width: number) => ({ period: 1_000_000, phase: from, high: width });

describe('inertial delay (IEEE 1364-2005 6.1.3, 7.14)', () => {
  const throughDelay = (delay: DelayOption, width: number) => {
    const c = circuit();
    c.output('y', c.delayed(c.buf(c.input('a')), delay));
    return runTimed(c.build(), { clocks: { a: pulse(100, width) }, until: 300 }).wave('y');
  };
  it('DLY-1: takes back a pulse of 6 through 10', () => {
    expect(throughDelay(delayOf(10), 6)).toBe('0');
  });
  it('DLY-2: passes a pulse of 14 through 10, 10 later', () => {
    expect(throughDelay(delayOf(10), 14)).toBe('0 @110:1 @124:0');
  });
  it('gives a high pulse the width w + fall − rise (definition 25)', () => {
    expect(throughDelay(delayOf(10, 12), 14)).toBe('0 @110:1 @126:0');
    expect(throughDelay(delayOf(12, 10), 14)).toBe('0 @112:1 @124:0');
  });
});

describe('delay per direction (Palnitkar, Verilog HDL, ch. 5; IEEE 1364-2005 7.14)', () => {
  /** A tri-state buffer whose data and enable pass every level. */
  const ofBuffer = (delay: DelayOption) => {
    const c = circuit();
    const data = c.input('data');
    const enable = c.input('enable');
    const pair = c.undriven('pair', { width: 2 });
    c.output('y', c.delayed(c.tristate(data, enable), delay));
    c.output('to_x', c.delayed(c.mux(c.input('unknown'), pair.bit(0), data), delay));
    return runTimed(c.build(), {
      clocks: { data: pulse(100, 100), enable: pulse(50, 300), unknown: pulse(130, 1000) },
      until: 1000,
    });
  };
  it('DLY-3: rise 10, fall 12: to 1 in 10, to 0 in 12, to x and z in 10', () => {
    const run = ofBuffer(delayOf(10, 12));
    // Enabled at 50 with data 0, data up at 100 and down at 200, released at 350.
    expect(run.wave('y')).toBe('z @62:0 @110:1 @212:0 @360:z');
    // The select is 1 from 130 on: z passes as it is.
    expect(run.wave('to_x')).toBe('0 @110:1 @140:z');
  });
  it('DLY-4: (10, 12, 11): to x in 10, to z in 11', () => {
    expect(ofBuffer(delayOf(10, 12, 11)).wave('y')).toBe('z @62:0 @110:1 @212:0 @361:z');
    expect(toX(delayOf(10, 12, 11))).toBe('1 @110:x');
    expect(toX(delayOf(12, 10, 11))).toBe('1 @110:x');
    expect(toX(delayOf(12, 11, 10))).toBe('1 @110:x');
  });
  it('DLY-13: 2; (1, 3); (1, 2, 3)', () => {
    expect(ofBuffer(delayOf(2)).wave('y')).toBe('z @52:0 @102:1 @202:0 @352:z');
    expect(ofBuffer(delayOf(1, 3)).wave('y')).toBe('z @53:0 @101:1 @203:0 @351:z');
    expect(ofBuffer(delayOf(1, 2, 3)).wave('y')).toBe('z @52:0 @101:1 @202:0 @353:z');
  });

  /** A value that goes from 1 to x at 100. */
  function toX(delay: DelayOption): string {
    const c = circuit();
    c.output('y', c.delayed(c.or(c.not(c.input('a')), c.undriven('u')), delay));
    return runTimed(c.build(), { clocks: { a: pulse(100, 100_000) }, until: 300 }).wave('y');
  }
});

describe('DLY-11: triples on clock to output', () => {
  it('takes the corner asked for', () => {
    const c = circuit();
    const triples = {
      rise: { min: 45_000, typ: 150_000, max: 270_000 },
      fall: { min: 60_000, typ: 200_000, max: 350_000 },
    };
    c.register('q', { clock: c.input('clk'), data: (q) => c.not(q), delay: triples });
    const netlist = c.build();
    const wave = (triple: 'min' | 'typ' | 'max') =>
      runTimed(netlist, { clocks: { clk: { period: 1000, phase: 1000 } }, until: 2900, triple }).wave('q');
    expect(wave('min')).toBe('0 @1045:1 @2060:0');
    expect(wave('typ')).toBe('0 @1150:1 @2200:0');
    expect(wave('max')).toBe('0 @1270:1 @2350:0');
  });
});

describe('hazards with delays written in the text', () => {
  const names = ['x', 'y', 'z'] as const;
  const withInputs = (
    make: (c: Circuit, x: Wire, y: Wire, z: Wire) => Wire,
    x: string,
    y: string,
    z: 'falls' | 'rises' | 'x',
  ) => {
    const c = circuit();
    const [wx, wy, wz] = names.map((name) => c.input(name));
    c.output('f', make(c, wx, wy, wz));
    const stimulus = z === 'falls' ? { phase: 0, high: 100 } : { phase: 100, high: 10_000 };
    const options =
      z === 'x'
        ? { inputs: { x, y, z: 'x' } }
        : { inputs: { x, y }, clocks: { z: { period: 1_000_000, ...stimulus } } };
    return runTimed(c.build(), { ...options, until: 400 }).wave('f');
  };
  /** Each gate's output through a net of its own, as a gate instance with a delay makes it. */
  const gates = (c: Circuit) => {
    let count = 0;
    return (wire: Wire, ns: number) => c.net(`n${count++}`, c.delayed(wire, delayOf(ns)));
  };
  /** F = X·Z̄ + Y·Z, inverter 3, ands 1 (Wakerly, Digital Design, 4.5). */
  const sumOfProducts =
    (or: number, consensus = false) =>
    (c: Circuit, x: Wire, y: Wire, z: Wire) => {
      const g = gates(c);
      const products = [g(c.and(x, g(c.not(z), 3)), 1), g(c.and(y, z), 1)];
      return g(c.or(...products, ...(consensus ? [g(c.and(x, y), 1)] : [])), or);
    };
  const productOfSums = (c: Circuit, x: Wire, y: Wire, z: Wire) => {
    const g = gates(c);
    return g(c.and(g(c.or(x, g(c.not(z), 3)), 1), g(c.or(y, z), 1)), 1);
  };

  it('HZ-1: Z falls at 100, F low from 102 to 105', () => {
    expect(withInputs(sumOfProducts(1), '1', '1', 'falls')).toBe('1 @102:0 @105:1');
  });
  it('HZ-2: Z rises, F stays 1', () => {
    expect(withInputs(sumOfProducts(1), '1', '1', 'rises')).toBe('1');
  });
  it('HZ-3: the consensus term X·Y keeps F at 1 (Brown & Vranesic, ch. 9)', () => {
    expect(withInputs(sumOfProducts(1, true), '1', '1', 'falls')).toBe('1');
  });
  it('HZ-4: with Z unknown the four-state value is x without, 1 with the term (Eichelberger 1965)', () => {
    expect(withInputs(sumOfProducts(1), '1', '1', 'x')).toBe('x');
    expect(withInputs(sumOfProducts(1, true), '1', '1', 'x')).toBe('1');
  });
  it('HZ-5: the dual, high from 102 to 105 when Z rises, still when it falls', () => {
    expect(withInputs(productOfSums, '0', '0', 'rises')).toBe('0 @102:1 @105:0');
    expect(withInputs(productOfSums, '0', '0', 'falls')).toBe('0');
  });
  it('HZ-6: an or of 2 passes the pulse from 103 to 106, an or of 4 removes it', () => {
    expect(withInputs(sumOfProducts(2), '1', '1', 'falls')).toBe('1 @103:0 @106:1');
    expect(withInputs(sumOfProducts(4), '1', '1', 'falls')).toBe('1');
  });
});

describe('logic without delay', () => {
  it('settles in order of depth: no glitch of width zero from the order of evaluation', () => {
    const c = circuit();
    const a = c.input('a');
    // The same input through zero and through four inverters: unequal depth, equal arrival.
    const late = c.not(c.not(c.not(c.not(a))));
    c.output('y', c.xor(a, late));
    c.output('w', c.mux(a, late, c.not(late)));
    const run = runTimed(c.build(), { clocks: { a: { period: 20 } }, until: 100 });
    expect(run.wave('y')).toBe('0');
    expect(run.wave('w')).toBe('1');
  });

  it('gives a set its delays by class, and none below an explicit delay of the text', () => {
    const c = circuit();
    const a = c.input('a');
    c.output('by_set', c.net('m', c.and(a, c.not(a.bit(0)))));
    c.output('plain', c.not(a));
    c.output('written', c.delayed(c.not(c.buf(a)), delayOf(5)));
    const run = runTimed(c.build(), {
      clocks: { a: pulse(100, 50) },
      until: 300,
      delays: plainSet('g', { register: 1, gate: 2 }),
    });
    // The and sees the inverter 2 ns late: a pulse as wide as the and's own delay passes.
    expect(run.wave('by_set')).toBe('0 @102:1 @104:0');
    expect(run.wave('plain')).toBe('1 @102:0 @152:1');
    // The inverter and the buffer are the expression that #5 stands for.
    expect(run.wave('written')).toBe('1 @105:0 @155:1');
  });
});

describe('loops', () => {
  it('cuts a loop without delay at the limit, naming what moves', () => {
    const c = circuit();
    const enable = c.input('enable');
    c.net('loop', (self) => c.nand(enable, self));
    const run = runTimed(c.build(), { clocks: { enable: pulse(100, 500) }, until: 1000, limits: { instantSteps: 50 } });
    expect(run.waves.cut).toMatchObject({ limit: 'instantSteps', at: 100_000 });
    expect(run.waves.cut?.nodes.length).toBe(1);
    expect(run.waves.end).toBe(100_000);
    expect(run.wave('loop')).toBe('1');
  });
  it('lets a loop with delay run, up to the limit of changes', () => {
    const c = circuit();
    const enable = c.input('enable');
    c.net('loop', (self) => c.delayed(c.nand(enable, self), delayOf(5)));
    const netlist = c.build();
    const clocks = { enable: pulse(100, 500) };
    expect(runTimed(netlist, { clocks, until: 122 }).wave('loop')).toBe('1 @105:0 @110:1 @115:0 @120:1');
    const cut = runTimed(netlist, { clocks, until: 600, limits: { changes: 40 } });
    expect(cut.waves.cut?.limit).toBe('changes');
    expect(cut.waves.changes.count).toBeLessThanOrEqual(40);
  });
  it('holds cross-coupled gates, unknown until they are set', () => {
    const c = circuit();
    const set = c.input('set_n');
    let back: Wire | null = null;
    const q = c.net('q', () => c.nand(set, back as Wire));
    back = c.net('qn', () => c.nand(c.input('reset_n'), q));
    const run = runTimed(c.build(), {
      inputs: { reset_n: '1' },
      // Low until 80.
      clocks: { set_n: { period: 1000, phase: 80, high: 900 } },
      until: 500,
    });
    expect(run.wave('q')).toBe('1');
    expect(run.wave('qn')).toBe('0');
    const free = runTimed(run.netlist, { inputs: { reset_n: '1', set_n: '1' }, until: 500 });
    expect(`${free.wave('q')} ${free.wave('qn')}`).toBe('x x');
    const late = runTimed(run.netlist, {
      inputs: { reset_n: '1' },
      clocks: { set_n: { period: 1000, phase: 0, high: 50 } },
      until: 500,
    });
    expect(`${late.wave('q')}, ${late.wave('qn')}`).toBe('x @50:1, x @50:0');
  });
});

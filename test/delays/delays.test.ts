// Delay sets: the published ones, the arithmetic on triples, and reading a set that is handed in as data.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { builtInDelaySet, builtInDelaySets } from '../../server/src/delays/built-in-sets';
import { everySet, overlaySet, setOfRegister, statedEntries } from '../../server/src/delays/own-delays';
import { parseDelays, parseDelaySet } from '../../server/src/delays/parse-delay-set';
import { clockToQOf, logicClassOf, logicDelayOf } from '../../server/src/delays/stage-delays';
import {
  addTriples,
  equalTriples,
  hasSpread,
  latestTriple,
  scaleTriple,
  spanningTriple,
  subtractTriples,
  tripleOf,
} from '../../server/src/delays/triple';
import { unstatedEntries } from '../../server/src/delays/unstated';
import type { DelaySet } from '../../server/src/delays/delay-set';
import type { RegisterId } from '../../server/src/netlist/netlist';
import { Op } from '../../server/src/netlist/operators';

function builtIn(name: string): DelaySet {
  const set = builtInDelaySet(name);
  if (set === null) throw new Error(name);
  return set;
}

describe('built-in sets', () => {
  it('are offered by name', () => {
    expect(builtInDelaySets.map(({ name }) => name)).toEqual([
      'unit',
      'ideal',
      '74HC393',
      '74HCT393',
      '74HC4040',
      '74HCT4040',
      '74HC4060',
      'HEF4024B-5V',
      'HEF4024B-10V',
      'HEF4024B-15V',
      'HEF40163B-5V',
      'HEF40163B-10V',
      'HEF40163B-15V',
      '74HC74',
      '74LS74A-15pF',
      '74LS74A-50pF',
      '74LS163A',
      '74HC165',
      'programmable-logic',
    ]);
    expect(builtInDelaySet('nothing')).toBe(null);
  });

  // DS-1 to DS-4: Philips sheets of 74HC/HCT393 and 74HC/HCT4040 at 5 V, 15 pF, 25 °C, typical.
  it.each([
    ['74HC393', 12, 5, 11, 99, 4],
    ['74HCT393', 20, 6, 15, 53, 4],
    ['74HC4040', 14, 8, null, 90, 12],
    ['74HCT4040', 16, 8, null, 79, 12],
  ] as const)('%s states what its sheet prints', (name, first, next, clear, megahertz, stages) => {
    const set = builtIn(name);
    expect(set.clockToQ.first.rise.typ).toBe(first * 1000);
    expect(set.clockToQ.next?.fall.typ).toBe(next * 1000);
    expect(set.clear?.fall.typ ?? null).toBe(clear === null ? null : clear * 1000);
    expect(1e6 / (set.period?.typ ?? 0)).toBeCloseTo(megahertz, 2);
    expect(set.stagesPerPart).toBe(stages);
    expect(set.sheet).toMatch(/Philips/);
    expect(set.conditions).toMatch(/5 V, 15 pF, 25 °C/);
  });

  it('say where their numbers come from, and which of them are assumptions', () => {
    for (const { conditions, name, sheet } of builtInDelaySets) {
      expect(conditions).not.toBe(null);
      if (sheet === null) expect(conditions, name).toMatch(/an assumption/);
    }
  });

  it('have no spread but where a sheet prints typical and largest values', () => {
    const spread = /^HEF4024B|^74HC165|^programmable-logic/;
    for (const { clockToQ, clear, period } of builtInDelaySets.filter(({ name }) => !spread.test(name))) {
      const triples = [clockToQ.first, clockToQ.next, clear].flatMap((delay) =>
        delay === null ? [] : [delay.rise, delay.fall],
      );
      expect([...triples, ...(period === null ? [] : [period])].some(hasSpread)).toBe(false);
    }
  });

  it('unit gives registers 1 ns, ideal nothing; both give logic nothing', () => {
    expect(clockToQOf(builtIn('unit'), 1).rise).toEqual(tripleOf(1000));
    expect(clockToQOf(builtIn('unit'), 7).fall).toEqual(tripleOf(1000));
    expect(clockToQOf(builtIn('ideal'), 1).rise).toEqual(tripleOf(0));
    for (const op of Object.values(Op)) expect(logicDelayOf(builtIn('unit'), op).rise.max).toBe(0);
  });

  it('say what they do not state', () => {
    expect(unstatedEntries(builtIn('74HC4040'))).toEqual([
      'logic',
      'latch',
      'clear',
      'setup',
      'hold',
      'recovery',
      'removal',
      'width',
      'tau',
      'window',
    ]);
  });
});

describe('stages of parts', () => {
  it('begin again with every part', () => {
    const set = builtIn('74HC393');
    const delays = Array.from({ length: 9 }, (_, index) => clockToQOf(set, index + 1).rise.typ / 1000);
    expect(delays).toEqual([12, 5, 5, 5, 12, 5, 5, 5, 12]);
  });
  it('take first once only where the set is of no part, and for every stage where it states no next', () => {
    const loose: DelaySet = { ...builtIn('74HC393'), stagesPerPart: null };
    expect([1, 2, 5].map((stage) => clockToQOf(loose, stage).rise.typ)).toEqual([12_000, 5_000, 5_000]);
    const same: DelaySet = { ...loose, clockToQ: { ...loose.clockToQ, next: null } };
    expect([1, 2, 5].map((stage) => clockToQOf(same, stage).rise.typ)).toEqual([12_000, 12_000, 12_000]);
  });
});

describe('classes of operators', () => {
  it('cover every operator that takes time, once', () => {
    const none = [
      'constant',
      'input',
      'register',
      'latch',
      'blackBox',
      'undriven',
      'hole',
      'net',
      'delay',
      'resolve',
      'concat',
      'slice',
      'zeroExtend',
      'signExtend',
    ];
    for (const [name, op] of Object.entries(Op))
      expect(`${name} ${logicClassOf(op) === null}`).toBe(`${name} ${none.includes(name)}`);
  });
  it('call things by the trade’s classes', () => {
    const classes = [
      Op.buf,
      Op.not,
      Op.nor,
      Op.reduceXor,
      Op.mux,
      Op.equal,
      Op.lessEqualSigned,
      Op.add,
      Op.powerSigned,
      Op.shiftLeft,
      Op.shiftRightSigned,
      Op.select,
      Op.tristate,
    ];
    expect(classes.map(logicClassOf)).toEqual([
      'buffer',
      'inverter',
      'gate',
      'gate',
      'multiplexer',
      'comparison',
      'comparison',
      'arithmetic',
      'arithmetic',
      'shift',
      'shift',
      'select',
      'tristate',
    ]);
  });
});

describe('triples', () => {
  const triples = fc.tuple(fc.nat(1e6), fc.nat(1e6), fc.nat(1e6)).map(([a, b, c]) => {
    const [min, typ, max] = [a, b, c].sort((left, right) => left - right);
    return { min, typ, max };
  });
  it('add corner by corner, and subtract what may be independent', () => {
    expect(addTriples({ min: 1, typ: 2, max: 3 }, { min: 10, typ: 20, max: 30 })).toEqual({
      min: 11,
      typ: 22,
      max: 33,
    });
    expect(subtractTriples({ min: 1, typ: 2, max: 3 }, { min: 10, typ: 20, max: 30 })).toEqual({
      min: -29,
      typ: -18,
      max: -7,
    });
    expect(scaleTriple({ min: 1, typ: 2, max: 3 }, 3)).toEqual({ min: 3, typ: 6, max: 9 });
    expect(latestTriple({ min: 1, typ: 5, max: 6 }, { min: 2, typ: 3, max: 9 })).toEqual({ min: 2, typ: 5, max: 9 });
    expect(spanningTriple({ min: 1, typ: 5, max: 6 }, { min: 2, typ: 3, max: 9 })).toEqual({ min: 1, typ: 5, max: 9 });
    expect(equalTriples(tripleOf(4), { min: 4, typ: 4, max: 4 })).toBe(true);
    expect(equalTriples(tripleOf(4), { min: 4, typ: 4, max: 5 })).toBe(false);
  });
  it('hold every difference of values between the corners', () => {
    fc.assert(
      fc.property(
        triples,
        triples,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (left, right, at, other) => {
          const value = left.min + at * (left.max - left.min) - (right.min + other * (right.max - right.min));
          const { min, max } = subtractTriples(left, right);
          expect(value).toBeGreaterThanOrEqual(min - 1e-6);
          expect(value).toBeLessThanOrEqual(max + 1e-6);
        },
      ),
    );
  });
});

describe('a set handed in as data', () => {
  const reasons = (written: unknown) => {
    const parsed = parseDelaySet('mine', written);
    return parsed.kind === 'set' ? [] : parsed.complaints.map(({ reason, args }) => `${reason} ${args.at}`);
  };
  it('reads the three ways to write a triple, and one delay for both directions', () => {
    const parsed = parseDelaySet('mine', {
      sheet: 'a sheet',
      clockToQ: {
        first: { rise: [45_000, 150_000, 270_000], fall: { min: 60_000, typ: 200_000, max: 350_000 } },
        next: 5_000,
      },
      stagesPerPart: 4,
      logic: { gate: [1, 2, 3], inverter: null },
      setup: 10,
    });
    expect(parsed).toEqual({
      kind: 'set',
      set: {
        name: 'mine',
        sheet: 'a sheet',
        conditions: null,
        clockToQ: {
          first: {
            rise: { min: 45_000, typ: 150_000, max: 270_000 },
            fall: { min: 60_000, typ: 200_000, max: 350_000 },
          },
          next: { rise: tripleOf(5_000), fall: tripleOf(5_000) },
        },
        stagesPerPart: 4,
        logic: { gate: { rise: { min: 1, typ: 2, max: 3 }, fall: { min: 1, typ: 2, max: 3 } } },
        latch: null,
        clear: null,
        setup: tripleOf(10),
        hold: null,
        recovery: null,
        removal: null,
        width: null,
        period: null,
        tau: null,
        window: null,
      },
    });
  });
  it('reads back every built-in set', () => {
    for (const set of builtInDelaySets) {
      const { name, ...written } = set;
      expect(parseDelaySet(name, JSON.parse(JSON.stringify(written)))).toEqual({ kind: 'set', set });
    }
  });
  it('names everything that is wrong', () => {
    expect(reasons(3)).toEqual(['delay-not-object ', 'delay-missing clockToQ']);
    expect(reasons({})).toEqual(['delay-missing clockToQ']);
    expect(reasons({ clockToQ: { last: 1 } })).toEqual([
      'delay-unknown-key clockToQ.last',
      'delay-missing clockToQ.first',
    ]);
    expect(
      reasons({
        clockToQ: { first: { rise: -1, fal: 2 } },
        setupp: 1,
        hold: [3, 2, 1],
        latch: '5',
        width: 1.5,
        stagesPerPart: 0,
        sheet: 7,
        logic: { gates: 1, gate: { rise: 1 } },
        period: [1, 2],
        tau: { min: 1, max: 2 },
      }).sort(),
    ).toEqual(
      [
        'delay-unknown-key setupp',
        'delay-not-text sheet',
        'delay-unknown-key clockToQ.first.fal',
        'delay-not-time clockToQ.first.rise',
        'delay-missing clockToQ.first.fall',
        'delay-not-count stagesPerPart',
        'delay-unknown-key logic.gates',
        'delay-missing logic.gate.fall',
        'delay-not-time latch',
        'delay-not-ordered hold',
        'delay-not-time width',
        'delay-not-time period',
        'delay-not-time tau',
      ].sort(),
    );
  });
});

describe('delays of a single thing', () => {
  function read(written: unknown) {
    const parsed = parseDelays(written);
    if (parsed.kind === 'refused') throw new Error(JSON.stringify(parsed.complaints));
    return parsed.delays;
  }

  it('may leave every entry open', () => {
    expect(statedEntries(read({}))).toEqual([]);
    expect(statedEntries(read({ setup: 3, clockToQ: { first: 5 } }))).toEqual(['clockToQ', 'setup']);
  });

  it('are refused for the same reasons as a set', () => {
    const parsed = parseDelays({ clockToQ: {}, hold: -1 });
    expect(parsed.kind === 'refused' && parsed.complaints.map(({ args, reason }) => [args.at, reason])).toEqual([
      ['clockToQ.first', 'delay-missing'],
      ['hold', 'delay-not-time'],
    ]);
  });

  it('replace what they state and leave the rest, classes of logic one by one', () => {
    const base = { ...builtIn('unit'), logic: { gate: { rise: tripleOf(2), fall: tripleOf(3) } }, hold: tripleOf(7) };
    const laid = overlaySet(base, read({ clockToQ: { first: 5 }, logic: { inverter: 4 } }));
    expect(clockToQOf(laid, 1).rise).toEqual(tripleOf(5));
    expect([laid.name, laid.hold, laid.clear]).toEqual(['unit', tripleOf(7), base.clear]);
    expect(logicDelayOf(laid, Op.and).fall).toEqual(tripleOf(3));
    expect(logicDelayOf(laid, Op.not).fall).toEqual(tripleOf(4));
  });

  it('are found by what takes them', () => {
    const other = overlaySet(builtIn('unit'), read({ setup: 1 }));
    const register = 3 as RegisterId;
    const own = { registers: new Map([[register, other]]), latches: new Map(), nodes: new Map() };
    const set = { ...builtIn('unit'), own };
    expect(setOfRegister(set, register)).toBe(other);
    expect(setOfRegister(set, 4 as RegisterId)).toBe(set);
    expect(everySet(set)).toEqual([set, other]);
  });
});

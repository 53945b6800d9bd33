// Finished waves: what can be asked of them, and the causes they keep.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import { builtInDelaySets } from '../../server/src/delays/built-in-sets';
import { toBinary } from '../../server/src/netlist/four-state';
import type { DriveClock } from '../../server/src/predict/drive';
import { createClockEdges } from '../../server/src/predict/drive-edges';
import { createEventQueue } from '../../server/src/predict/engine-queue';
import { predictWaves } from '../../server/src/predict/timed-engine';
import { causeChain, edgesOf, levelAt, valueAt } from '../../server/src/predict/wave-query';
import { ChangeKind } from '../../server/src/predict/waves';
import { nothingStated } from '../clocks/describe-clocks';
import { circuit } from '../tools/circuit';
import { driveBy, finish, plainSet, runTimed } from './timed';

/** q toggles on clk; f = q & ~a with gates of 2 ns, a driven. */
function gated() {
  const c = circuit();
  const q = c.register('q', { clock: c.input('clk'), data: (self) => c.not(self) });
  const word = c.net('word', c.concat(q, c.not(q), c.constant('10')));
  c.output('f', c.and(q, c.not(c.input('a'))));
  return { netlist: c.build(), word };
}

const options = {
  clocks: { clk: { period: 100 } },
  inputs: { a: '0' },
  delays: plainSet('g', { register: 5, gate: 2 }),
  until: 400,
};

describe('levels and values', () => {
  const { netlist, word } = gated();
  const run = runTimed(netlist, options);
  const q = { node: run.signal('q').node, bit: 0 };

  it('are told on both sides of an instant', () => {
    expect([0, 54_999, 55_000, 55_001].map((time) => levelAt(run.waves, q, time, 'before'))).toEqual([0, 0, 0, 1]);
    expect([0, 54_999, 55_000, 55_001].map((time) => levelAt(run.waves, q, time, 'after'))).toEqual([0, 0, 1, 1]);
  });
  it('are told of any node: wiring, constants, logic that never changes', () => {
    const at = (time: number) => toBinary(valueAt(netlist, run.waves, word.node, time, 'after'));
    expect([at(0), at(55_000), at(57_000)]).toEqual(['0110', '1110', '1010']);
    for (let node = 0; node < netlist.nodes.count; node++) {
      expect(valueAt(netlist, run.waves, node as never, 0, 'after').width).toBe(netlist.nodes.width[node]);
    }
  });
  it('gives the edges of a bit', () => {
    const times = (edge: 'rising' | 'falling') =>
      edgesOf(run.waves, q, edge).map((index) => run.waves.changes.time[index]);
    expect(times('rising')).toEqual([55_000, 255_000]);
    expect(times('falling')).toEqual([155_000, 355_000]);
  });
});

describe('causes', () => {
  const { netlist } = gated();
  const { waves, signal } = runTimed(netlist, options);
  it('lead from an output through register and clock to the drive', () => {
    const f = Array.from(waves.changesOf({ node: signal('f').node, bit: 0 }));
    const kinds = causeChain(waves, f[0]).map(
      (index) => `${waves.changes.kind[index]}@${waves.changes.time[index] / 1000}`,
    );
    expect(kinds).toEqual([`${ChangeKind.logic}@57`, `${ChangeKind.sampled}@55`, `${ChangeKind.drive}@50`]);
  });
  it('name the operand that decides: the zero of an and, the arm of a choice', () => {
    const c = circuit();
    const [a, b, s] = ['a', 'b', 's'].map((name) => c.input(name));
    c.output('both', c.and(a, b));
    c.output('choice', c.mux(s, a, b));
    c.output('case', c.select(s, [['1', a]], b));
    const run = runTimed(c.build(), {
      clocks: {
        a: { period: 1000, phase: 100, high: 500 },
        b: { period: 1000, phase: 200, high: 300 },
        s: { period: 1000, phase: 50, high: 800 },
      },
      until: 800,
      delays: 'ideal',
    });
    const causeOf = (name: string, which: number) => {
      const change = Array.from(run.waves.changesOf({ node: run.signal(name).node, bit: 0 }))[which];
      return run.netlist.signals.find(
        ({ node }) =>
          run.waves.changes.node[run.waves.changes.cause[change]] ===
          run.netlist.nodes.pool[run.netlist.nodes.first[node]],
      )?.name;
    };
    // both: up at 200 by b, down at 500 by b. choice: s is 1, so a alone decides, at 100 and 600.
    expect([causeOf('both', 0), causeOf('both', 1)]).toEqual(['b', 'b']);
    expect([causeOf('choice', 0), causeOf('choice', 1)]).toEqual(['a', 'a']);
    expect([causeOf('case', 0), causeOf('case', 1)]).toEqual(['a', 'a']);
  });
  it('come before their effects, in time and in number', () => {
    const { changes } = waves;
    for (let index = 0; index < changes.count; index++) {
      if (changes.kind[index] === ChangeKind.drive) expect(changes.cause[index]).toBe(-1);
      else expect(changes.cause[index]).toBeGreaterThanOrEqual(0);
      expect(changes.cause[index]).toBeLessThan(index);
      if (index > 0) expect(changes.time[index]).toBeGreaterThanOrEqual(changes.time[index - 1]);
    }
  });
});

describe('the edges of a driven clock (definition 19)', () => {
  const edges = (clock: Partial<DriveClock>, count: number) => {
    const made = createClockEdges({
      root: 0,
      bit: { node: 0 as never, bit: 0 },
      name: 'clk',
      period: 20,
      exactPeriod: null,
      high: 10,
      phase: 10,
      source: 'given',
      highSource: 'given',
      phaseSource: 'given',
      ...clock,
    });
    return Array.from({ length: count }, () => {
      const edge = `${made.level}@${made.time}`;
      made.advance();
      return edge;
    });
  };
  it('begin with the first toggle after time 0', () => {
    expect(edges({}, 4)).toEqual(['1@10', '0@20', '1@30', '0@40']);
    expect(edges({ phase: 0 }, 3)).toEqual(['0@10', '1@20', '0@30']);
  });
  it('stand at round-half-up(k · p/q), not at a sum of rounded periods', () => {
    const exact = { numerator: 100, denominator: 3 };
    expect(edges({ exactPeriod: exact, period: 33, high: 10, phase: 0 }, 6)).toEqual([
      '0@10',
      '1@33',
      '0@43',
      '1@67',
      '0@77',
      '1@100',
    ]);
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 1e9 }),
        fc.integer({ min: 1, max: 1e6 }),
        fc.nat(1000),
        (whole, denominator, phase) => {
          const numerator = whole * denominator + (whole % denominator);
          const rises = edges(
            { exactPeriod: { numerator, denominator }, period: whole, high: 5, phase: phase + 1 },
            41,
          ).filter((edge) => edge.startsWith('1'));
          rises.forEach((edge, k) => {
            const place = (2n * BigInt(k) * BigInt(numerator) + BigInt(denominator)) / (2n * BigInt(denominator));
            expect(edge).toBe(`1@${BigInt(phase + 1) + place}`);
          });
        },
      ),
    );
  });
});

describe('the queue', () => {
  it('gives slots in order of time, then of scheduling, whatever is cancelled between', () => {
    const actions = fc.array(
      fc.record({ slot: fc.nat(19), delay: fc.nat(12), act: fc.constantFrom('schedule', 'cancel', 'take') }),
      { maxLength: 300 },
    );
    fc.assert(
      fc.property(actions, (list) => {
        const queue = createEventQueue(4);
        let model: { slot: number; time: number }[] = [];
        let now = 0;
        for (const { slot, delay, act } of list) {
          const scheduled = model.find((entry) => entry.slot === slot);
          expect(queue.timeOf(slot)).toBe(scheduled?.time ?? -1);
          if (act === 'schedule' && scheduled === undefined) {
            queue.schedule(slot, now + delay);
            model.push({ slot, time: now + delay });
          } else if (act === 'cancel') {
            queue.cancel(slot);
            model = model.filter((entry) => entry.slot !== slot);
          } else if (act === 'take' && model.length > 0) {
            const first = model.reduce((best, entry) => (entry.time < best.time ? entry : best));
            expect(queue.nextTime()).toBe(first.time);
            expect(queue.take()).toBe(first.slot);
            now = first.time;
            model = model.filter((entry) => entry !== first);
          }
          expect(queue.nextTime()).toBe(model.length === 0 ? -1 : Math.min(...model.map(({ time }) => time)));
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('a run', () => {
  it('gives way after a fixed count of work, and can be left', () => {
    const c = circuit();
    c.register('q', { width: 8, clock: c.input('clk'), data: (q) => c.increment(q) });
    const netlist = c.build();
    const network = finish(findClocks(netlist, nothingStated));
    const run = {
      netlist,
      network,
      drive: driveBy(netlist, network, { clocks: { clk: { period: 20 } }, until: 1 }),
      delaySet: builtInDelaySets[0],
      until: 1e9,
      limits: limitDefaults,
      start: '0' as const,
    };
    const turns = [...predictWaves(run)].length;
    expect(turns).toBeGreaterThan(5);
    expect([...predictWaves(run)].length).toBe(turns);
  });
});

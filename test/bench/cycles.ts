// The cycle engine, with its change log, against plain loops that do the same by hand, against the interpreter, and
// against itself; both of a pair tell the same changes and end alike, or the benchmark fails.

import { limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import { builtInDelaySets } from '../../server/src/delays/built-in-sets';
import { elaborate } from '../../server/src/elaborate/elaborate';
import { compileModule } from '../../server/src/module-compiler';
import { toBinary } from '../../server/src/netlist/four-state';
import type { Netlist } from '../../server/src/netlist/netlist';
import { sourceBit } from '../../server/src/netlist/trace';
import { driveOf } from '../../server/src/predict/drive-of';
import { countContextOf } from '../../server/src/predict/predict';
import { runFor } from '../../server/src/predict/settled-cycle';
import { levelAt } from '../../server/src/predict/settled-logic';
import { startRun } from '../../server/src/predict/settled-run';
import { readFiles } from '../../server/src/syntax/read';
import { compiledRun, finish } from '../cycles/compiled-run';
import { readyParser } from '../tools/parser';
import { toEnd } from '../tools/report-of';
import type { Claim } from './claim';
import {
  counterWithDecode,
  type CycleDesign,
  multiplyAccumulate,
  shiftRegisterWithCrc,
  type Told,
} from './cycle-designs';
import { lamp, randomGates, row, wide } from './cycle-pairs';
import { interleave } from './interleave';

const parser = await readyParser();
const rounds = 5;

export function* benchCycles(): Generator<Claim> {
  yield* againstLoop(counterWithDecode, { cycles: 1 << 26, interpreted: 1 << 14, compiled: 0.8, interpreter: 0.004 });
  yield* againstLoop(shiftRegisterWithCrc, { cycles: 1 << 21, interpreted: 1 << 13, compiled: 5, interpreter: 0.08 });
  yield* againstLoop(multiplyAccumulate, { cycles: 1 << 22, interpreted: 1 << 12, compiled: 5, interpreter: 0.08 });
  yield* gates();
  yield unknownStart();
  yield wideWords();
  yield* divider();
}

/** With four digits, as a line can show it. */
function shown(bound: number): number {
  return Number(bound.toPrecision(4));
}

interface Measure {
  readonly cycles: number;
  /** Fewer for the interpreter. */
  readonly interpreted: number;
  /** Cycles per second, at least so many times those of the loop. */
  readonly compiled: number;
  readonly interpreter: number;
}

function* againstLoop(design: CycleDesign, measure: Measure): Generator<Claim> {
  const netlist = netlistOfText(design.text);
  const { cycles, interpreted } = measure;
  const run = (many: number, compile: typeof compileModule | null | 'step') =>
    runDesign(netlist, design, many, compile);
  expectSame(design, run(cycles, compileModule), design.loop(cycles));
  expectSame(design, run(interpreted, null), design.loop(interpreted));
  const times = interleave(rounds, {
    compiled: () => run(cycles, compileModule),
    loop: () => design.loop(cycles),
    interpreter: () => run(interpreted, null),
  });
  const each = (time: number, many: number) => (1e6 * time) / many;
  const loop = { name: 'a loop by hand', value: each(times.loop, cycles), unit: 'ns a cycle' } as const;
  yield {
    subject: `${design.name}, compiled, compiling counted in, ${cycles.toLocaleString('en-US')} cycles`,
    candidate: { name: 'the engine', value: each(times.compiled, cycles), unit: 'ns a cycle' },
    baseline: loop,
    bound: shown(1 / measure.compiled),
  };
  yield {
    subject: `${design.name}, without code`,
    candidate: { name: 'the engine', value: each(times.interpreter, interpreted), unit: 'ns a cycle' },
    baseline: loop,
    bound: shown(1 / measure.interpreter),
  };
}

type Asked = Pick<CycleDesign, 'name' | 'watched'> & { readonly end: string | null };

function runDesign(
  netlist: Netlist,
  design: Asked,
  cycles: number,
  compile: typeof compileModule | null | 'step',
): Told {
  const run = compiledRun(netlist, {}, { compile, watched: design.watched });
  if (typeof compile === 'function' && run.refusal !== null)
    throw new Error(`${design.name} is not compiled: ${run.refusal}`);
  const changes: number[] = [];
  finish(run.advance(cycles, ({ period }, [low]) => changes.push(period, low)));
  return { changes, end: design.end === null ? 0 : endOf(run.machine(), netlist, design.end) };
}

function endOf(
  { plan, values }: ReturnType<ReturnType<typeof compiledRun>['machine']>,
  netlist: Netlist,
  name: string,
) {
  const signal = netlist.signals.find((one) => one.name === name);
  if (signal === undefined) throw new Error(`no signal ${name}`);
  return Number.parseInt(toBinary(values.views[plan.positionOf[signal.node]]), 2);
}

function expectSame({ name }: { readonly name: string }, one: Told, other: Told): void {
  const isSame =
    one.end === other.end &&
    one.changes.length === other.changes.length &&
    one.changes.every((value, index) => value === other.changes[index]);
  if (!isSame) throw new Error(`${name}: the two runs differ: ${one.end} and ${other.end}`);
}

export function netlistOfText(text: string): Netlist {
  const options = { defines: {}, includeFolders: [], provided: [], limits: limitDefaults };
  const { units } = toEnd(readFiles([{ path: 'bench.v', text }], options, parser));
  const { netlist } = toEnd(elaborate({ units, top: 'top', parameters: {}, limits: limitDefaults }));
  if (netlist === null) throw new Error('the design has no netlist');
  return netlist;
}

/** The stepper evaluates only what hears a change; code evaluates all of it. */
function* gates(): Generator<Claim> {
  const netlist = netlistOfText(randomGates(1_000, 200));
  const design = { name: '1,000 random gates with 200 flip-flops', watched: ['parity'], end: null } as const;
  const [many, few, quick, slow] = [1 << 19, 1 << 10, 1_000, 10_000];
  const run = (cycles: number, compile: typeof compileModule | null | 'step') =>
    runDesign(netlist, design, cycles, compile);
  expectSame(design, run(few, compileModule), run(few, 'step'));
  const times = interleave(rounds, {
    compiled: () => run(many, compileModule),
    interpreter: () => run(few, 'step'),
    tape: () => run(few, null),
    quick: () => run(quick, compileModule),
  });
  const each = (time: number, cycles: number) => (1e6 * time) / cycles;
  const interpreter = each(times.interpreter, few);
  yield {
    subject: `${design.name}, compiled, compiling counted in, ${many.toLocaleString('en-US')} cycles`,
    candidate: { name: 'the engine', value: each(times.compiled, many), unit: 'ns a cycle' },
    baseline: { name: 'the stepper', value: interpreter, unit: 'ns a cycle' },
    bound: shown(1 / 28),
  };
  yield {
    subject: `${design.name}, compiled and run for ${quick} cycles`,
    candidate: { name: 'the engine', value: times.quick, unit: 'ms' },
    baseline: {
      name: `the stepper's ${slow.toLocaleString('en-US')}`,
      value: (interpreter * slow) / 1e6,
      unit: 'ms',
    },
    bound: 0.2,
  };
}

function unknownStart(): Claim {
  const [known, unknown] = [netlistOfText(row('known')), netlistOfText(row('unknown'))];
  const design = { name: 'a row of registers', watched: ['lamp'], end: 'three' } as const;
  const cycles = 2 ** 27;
  const run = (netlist: Netlist, many: number, compile: typeof compileModule | null | 'step') =>
    runDesign(netlist, design, many, compile);
  expectSame(design, run(unknown, 5_000, compileModule), run(unknown, 5_000, 'step'));
  const times = interleave(rounds, {
    unknown: () => run(unknown, cycles, compileModule),
    known: () => run(known, cycles, compileModule),
  });
  const each = (time: number) => (1e6 * time) / cycles;
  return {
    subject: `three stages of 32 bits that start unknown, ${cycles.toLocaleString('en-US')} cycles`,
    candidate: { name: 'unknown at first', value: each(times.unknown), unit: 'ns a cycle' },
    baseline: { name: 'known from the start', value: each(times.known), unit: 'ns a cycle' },
    bound: shown(1 / 0.95),
  };
}

function wideWords(): Claim {
  const netlist = netlistOfText(wide.text);
  const design = { name: 'words of 128 bits', watched: ['top'], end: 'sum' } as const;
  const [many, few] = [1 << 23, 1 << 18];
  const one = runDesign(netlist, design, few, compileModule);
  const other = wide.loop(few);
  expectSame(design, one, { changes: other.changes, end: Number(other.end) });
  const times = interleave(rounds, {
    compiled: () => runDesign(netlist, design, many, compileModule),
    loop: () => wide.loop(few),
  });
  return {
    subject: 'sum and rotation of 128 bits, compiled',
    candidate: { name: 'the engine', value: (1e6 * times.compiled) / many, unit: 'ns a cycle' },
    baseline: { name: 'a loop of big integers', value: (1e6 * times.loop) / few, unit: 'ns a cycle' },
    bound: 1 / 20,
  };
}

/** From the text to the two toggles of the lamp: cycle by cycle in code, and with what is alike skipped in closed form. */
function* divider(): Generator<Claim> {
  const cycles = 2 ** 26;
  const design = { name: 'a lamp divider', watched: ['lamp'], end: null } as const;
  const stepped = () => runDesign(netlistOfText(lamp.text), design, cycles, compileModule);
  const skipped = () => skippedToggles(netlistOfText(lamp.text), 'lamp', cycles);
  const wanted = { changes: lamp.loop(cycles), end: 0 };
  expectSame(design, stepped(), wanted);
  expectSame(design, { changes: skipped(), end: 0 }, wanted);
  const times = interleave(rounds, {
    engine: stepped,
    skipped: () => {
      for (let time = 0; time < repeats; time++) skipped();
    },
    loop: () => lamp.loop(cycles),
  });
  const loop = { name: 'the bare loop', value: times.loop, unit: 'ms' } as const;
  const subject = 'a 26-bit lamp divider, text to toggles, 2^26 cycles';
  yield {
    subject: `${subject}, one by one`,
    candidate: { name: 'the engine', value: times.engine, unit: 'ms' },
    baseline: loop,
    bound: 2.5,
  };
  yield {
    subject: `${subject}, in closed form`,
    candidate: { name: 'skipping', value: times.skipped / repeats, unit: 'ms' },
    baseline: loop,
    bound: 0.01,
  };
}

/** What is too short for the clock is done so often. */
const repeats = 20;

function skippedToggles(netlist: Netlist, name: string, cycles: number): number[] {
  const network = toEnd(findClocks(netlist, { clockOperands: {}, related: [], cells: {}, static: [] }));
  const drive = driveOf(netlist, network, { clocks: {}, resets: {}, inputs: {}, start: '0' });
  const [delaySet] = builtInDelaySets;
  const context = toEnd(countContextOf({ netlist, network, drive, delaySet, start: '0', limits: limitDefaults }));
  const signal = netlist.signals.find((one) => one.name === name);
  if (signal === undefined) throw new Error(`no signal ${name}`);
  const bit = sourceBit(netlist.nodes, { node: signal.node, bit: 0 });
  const started = toEnd(startRun(context, [bit], 0));
  if (started.kind === 'refused') throw new Error(`${name} is not run`);
  const run = started.value;
  run.held = [bit];
  const changes: number[] = [];
  const level = () => levelAt(run.machine.plan, run.machine.values, run.machine.plan.positionOf[bit.node], bit.bit);
  let last = level();
  toEnd(
    runFor(run, cycles, {
      afterEdge() {
        if (level() === last) return;
        last = level();
        changes.push(run.periods, last);
      },
      afterJump() {},
    }),
  );
  return changes;
}

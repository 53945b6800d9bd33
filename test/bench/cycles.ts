// The cycle engine, with its change log, against plain loops that do the same by hand, against the interpreter, and
// against itself; both of a pair tell the same changes and end alike, or the benchmark fails.

import { limitDefaults } from '../../server/src/budget';
import { elaborate } from '../../server/src/elaborate/elaborate';
import { compileModule } from '../../server/src/module-compiler';
import { toBinary } from '../../server/src/netlist/four-state';
import type { Netlist } from '../../server/src/netlist/netlist';
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
import { interleave } from './interleave';

const parser = await readyParser();
const rounds = 5;

export function* benchCycles(): Generator<Claim> {
  yield* againstLoop(counterWithDecode, { cycles: 1 << 26, interpreted: 1 << 14, compiled: 0.8, interpreter: 0.004 });
  yield* againstLoop(shiftRegisterWithCrc, { cycles: 1 << 21, interpreted: 1 << 13, compiled: 5, interpreter: 0.08 });
  yield* againstLoop(multiplyAccumulate, { cycles: 1 << 22, interpreted: 1 << 12, compiled: 5, interpreter: 0.08 });
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
  const run = (many: number, compile: typeof compileModule | null) => runDesign(netlist, design, many, compile);
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
    bound: 1 / measure.compiled,
  };
  yield {
    subject: `${design.name}, interpreted`,
    candidate: { name: 'the interpreter', value: each(times.interpreter, interpreted), unit: 'ns a cycle' },
    baseline: loop,
    bound: 1 / measure.interpreter,
  };
}

function runDesign(netlist: Netlist, design: CycleDesign, cycles: number, compile: typeof compileModule | null): Told {
  const run = compiledRun(netlist, {}, { compile, watched: design.watched });
  if (compile !== null && run.refusal !== null) throw new Error(`${design.name} is not compiled: ${run.refusal}`);
  const changes: number[] = [];
  finish(run.advance(cycles, ({ period }, [low]) => changes.push(period, low)));
  return { changes, end: endOf(run.machine(), netlist, design.end) };
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

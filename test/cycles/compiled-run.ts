// What tests of the cycle engine share: long runs of hand-built circuits under one clock, compiled or interpreted.

import type { SourceChange, Watched } from '../../server/src/cycles/plan';
import { compileModule } from '../../server/src/module-compiler';
import { bitsOf } from '../../server/src/netlist/four-state';
import { type Netlist, topPorts } from '../../server/src/netlist/netlist';
import { createLongRun, type LongRun } from '../../server/src/predict/long-run';
import { stateOf } from '../../server/src/predict/long-run-states';
import { begin, rest, setSource } from '../../server/src/predict/settled';
import { createMachine, type SettledMachine } from '../../server/src/predict/settled-machine';
import { planSettled } from '../../server/src/predict/settled-plan';
import { inputNode } from '../predict/settled-bench';

/** Digits of inputs by name; inputs not named are 0. */
export type Held = Readonly<Record<string, string>>;

/** One instant: inputs of one bit take levels. */
export type Step = Readonly<Record<string, 0 | 1>>;

const oneClock: readonly Step[] = [{ clk: 1 }, { clk: 0 }];

export interface RunOptions {
  readonly steps?: readonly Step[];
  /** Code where not given. */
  readonly compile?: typeof compileModule | null | 'step';
  /** Signals; all where not given. */
  readonly watched?: readonly string[];
  readonly order?: SettledMachine['order'];
  /** Whether the whole state is looked at for a return. */
  readonly returns?: boolean;
}

export function compiledRun(netlist: Netlist, held: Held, options: RunOptions = {}): LongRun {
  const { compile = compileModule, steps = oneClock, order } = options;
  const machine = machineAtRest(netlist, held, order);
  const change = ([name, level]: [string, 0 | 1]): SourceChange => ({
    position: machine.plan.positionOf[inputNode(netlist, name)],
    bit: 0,
    level,
  });
  const { plan } = machine;
  return createLongRun({
    machine,
    instants: steps.map((step) =>
      Object.entries(step)
        .map(change)
        .filter(({ position }) => position >= 0),
    ),
    watched: watchedOf(machine, options.watched),
    home: (options.returns === true ? plan.registers : []).flatMap(({ position }) =>
      Array.from({ length: (plan.width[position] + 31) >>> 5 }, (_, limb) => ({
        limb: plan.offset[position] + limb,
        mask: -1,
      })),
    ),
    compile,
  });
}

function machineAtRest(netlist: Netlist, held: Held, order?: SettledMachine['order']): SettledMachine {
  const nodes = netlist.signals.map(({ node }) => node);
  const machine = createMachine(planSettled(netlist, nodes), order === undefined ? {} : { order });
  begin(machine, { register: (id) => netlist.registers[id].initial, latch: (id) => netlist.latches[id].initial });
  for (const { name, port, width } of topPorts(netlist)) {
    if (port === 'input') setSource(machine, inputNode(netlist, name), bitsOf(held[name] ?? '0'.repeat(width)));
  }
  rest(machine);
  return machine;
}

function watchedOf({ plan }: SettledMachine, names?: readonly string[]): Watched[] {
  const signals = plan.netlist.signals.filter(({ name }) => names?.includes(name) ?? true);
  return signals.flatMap(({ node }) => {
    const position = plan.positionOf[node];
    const width = plan.width[position];
    return Array.from({ length: Math.ceil(width / 64) }, (_, part) => ({
      position,
      low: 64 * part,
      width: Math.min(64, width - 64 * part),
    }));
  });
}

/** Drains a run's generator; gives what it returns. */
export function finish<Value>(steps: Generator<void, Value>): Value {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/** Everything that is told within so many periods, and all values at their end. */
export function told(run: LongRun, periods: number): string[] {
  const lines: string[] = [];
  finish(
    run.advance(periods, ({ instant, period, watched }, a, b) => {
      lines.push(`${period}.${instant} ${watched}: ${a.map((limb) => limb >>> 0)} / ${b.map((limb) => limb >>> 0)}`);
    }),
  );
  const { a, b } = stateOf(run.machine());
  return [...lines, `${a} / ${b}`];
}

// What registers and latches hold, taken out of a settled machine and put back; and states kept along a long run, as
// many as a fixed number, evenly spread: when there are too many, every second one is let go.

import type { Planes } from '../cycles/compiled';
import type { NodeId } from '../netlist/netlist';
import { rest, setState } from './settled';
import type { SettledMachine } from './settled-machine';

/** Planes of all positions, of which those of registers and latches count. */
export function stateOf({ values }: SettledMachine): Planes {
  return { a: values.a.slice(), b: values.b.slice() };
}

/** The machine is then at rest with this state. */
export function putState(machine: SettledMachine, { a, b }: Planes): void {
  const { plan, values } = machine;
  const nodes: NodeId[] = [
    ...plan.registers.map(({ register }) => register.node),
    ...plan.latches.map(({ node }) => node),
  ];
  for (const node of nodes) {
    const position = plan.positionOf[node];
    const from = plan.offset[position];
    const until = from + values.views[position].a.length;
    setState(machine, node, { width: plan.width[position], a: a.subarray(from, until), b: b.subarray(from, until) });
  }
  rest(machine);
}

export interface KeptStates {
  /** Periods from one kept state to the next. */
  readonly spacing: number;
  wants(period: number): boolean;
  keep(period: number, state: Planes): void;
  /** The last one at or before a period. */
  before(period: number): { readonly period: number; readonly state: Planes };
}

const mostKept = 64;
const firstSpacing = 1 << 20;

export function createKeptStates(start: Planes): KeptStates {
  let kept = [{ period: 0, state: start }];
  let spacing = firstSpacing;
  return {
    get spacing() {
      return spacing;
    },
    wants: (period) => period >= kept[kept.length - 1].period + spacing,
    keep(period, state) {
      kept.push({ period, state });
      if (kept.length <= mostKept) return;
      kept = kept.filter((_, index) => index % 2 === 0);
      spacing *= 2;
    },
    before: (period) => kept.reduce((last, one) => (one.period <= period ? one : last)),
  };
}

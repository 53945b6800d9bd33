// Periods taken by the settled machine itself, and what is watched told as compiled code would tell it.

import type { SourceChange, Watched } from '../cycles/plan';
import { slice } from '../netlist/four-state-parts';
import type { NodeId } from '../netlist/netlist';
import { advance, setSourceBit } from './settled';
import { sameBits, type SettledMachine } from './settled-machine';
import type { Level } from './waves';

/** A watched word changed; planes in two halves of 32 bits. */
export type ChangeListener = (
  change: { readonly period: number; readonly instant: number; readonly watched: number },
  a: readonly [low: number, high: number],
  b: readonly [low: number, high: number],
) => void;

export function interpretPeriod(
  machine: SettledMachine,
  instants: readonly (readonly SourceChange[])[],
  watched: readonly Watched[],
  tell: { readonly period: number; readonly listener: ChangeListener | null },
): void {
  const { plan } = machine;
  const { listener, period } = tell;
  let seen = listener === null ? [] : watched.map((one) => wordOf(machine, one));
  for (const [instant, changes] of instants.entries()) {
    for (const { bit, level, position } of changes) {
      setSourceBit(machine, { node: plan.nodes[position] as NodeId, bit }, level as Level);
    }
    advance(machine);
    if (listener === null) continue;
    const now = watched.map((one) => wordOf(machine, one));
    for (const [index, { a, b }] of now.entries()) {
      if (sameBits(now[index], seen[index])) continue;
      listener({ period, instant, watched: index }, [a[0], a[1] ?? 0], [b[0], b[1] ?? 0]);
    }
    seen = now;
  }
}

function wordOf({ values }: SettledMachine, { low, position, width }: Watched) {
  const { a, b } = slice(values.views[position], low, width);
  return { width, a: a.slice(), b: b.slice() };
}

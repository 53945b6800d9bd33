// What each register bit of a journey follows, where that is one thing: the root's edge, or one other bit.

import { GateKind, gateOf } from './glitch-gates';
import { isFreeOfControls } from './glitch-lockstep-program';
import { coneOf, type StoredPart, supportOf, type Workshop } from './glitch-parts';
import type { Journey } from './glitch-states';

/** What a register bit follows: the root's edge, or a literal of one other bit that becomes 1. */
export interface Cause {
  readonly variable: number;
  readonly trigger:
    | { readonly kind: 'edge' }
    | { readonly kind: 'bit'; readonly bit: number; readonly isInverted: boolean };
}

/**
 * Causes before what follows them, those with the simplest next level first: the low bits of a count before the high
 * ones, which wait for their carry. Null unless every bit is a register's without a control that can act, clocked by
 * the root as it is, or by one other bit; the latter samples only itself and what holds still.
 */
export function causesOf(workshop: Workshop, journey: Journey): readonly Cause[] | null {
  const { group, extent } = journey;
  const found = new Map<number, Cause>();
  for (const variable of extent.state) {
    const part = group.part(variable);
    if (part.kind !== 'register' || !isFreeOfControls(workshop, journey, part)) return null;
    const trigger = triggerOf(workshop, journey, part);
    if (trigger === null) return null;
    const samples = supportOf(workshop, part.data).filter(
      (heard) => extent.state.includes(heard) && heard !== variable,
    );
    if (trigger.kind === 'bit' && samples.length > 0) return null;
    found.set(variable, { variable, trigger });
  }
  return inCausalOrder(workshop, journey, found);
}

function triggerOf(
  { logic }: Workshop,
  { group, extent, restLevel }: Journey,
  part: StoredPart,
): Cause['trigger'] | null {
  const gate = gateOf(part.trigger);
  if (logic.gates.kind[gate] !== GateKind.variable) return null;
  const variable = logic.gates.a[gate];
  const isInverted = (part.trigger & 1) === 1;
  if (group.part(variable).kind === 'root') return isInverted === (restLevel === 1) ? { kind: 'edge' } : null;
  return extent.state.includes(variable) ? { kind: 'bit', bit: variable, isInverted } : null;
}

function inCausalOrder(
  workshop: Workshop,
  { group }: Journey,
  causes: ReadonlyMap<number, Cause>,
): readonly Cause[] | null {
  const size = ({ variable }: Cause): number => coneOf(workshop, (group.part(variable) as StoredPart).data).length;
  const waiting = [...causes.values()].sort(
    (left, right) => size(left) - size(right) || left.variable - right.variable,
  );
  const placed = new Set<number>();
  const ordered: Cause[] = [];
  while (ordered.length < causes.size) {
    const next = waiting.find(
      ({ variable, trigger }) => !placed.has(variable) && (trigger.kind === 'edge' || placed.has(trigger.bit)),
    );
    if (next === undefined) return null;
    placed.add(next.variable);
    ordered.push(next);
  }
  return ordered;
}

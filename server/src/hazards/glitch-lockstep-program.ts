// Whether registers can be followed in lockstep, and their next state as a program: see `glitch-lockstep.ts`.

import { GateKind, gateOf, zeroLiteral } from './glitch-gates';
import { type StoredPart, supportOf, type Workshop } from './glitch-parts';
import { compileProgram, type Program } from './glitch-program';
import type { Journey } from './glitch-states';

/**
 * The next state as a program; null unless every register is clocked by the root as it is, at the edge from
 * `restLevel`; no control can act; nothing takes time on the way, is a latch or not spelled out; and
 * every level is known.
 */
export function lockstepProgram(workshop: Workshop, journey: Journey): Program | null {
  const { group, extent, levels, edges } = journey;
  const parts = extent.state.map((variable) => group.part(variable));
  const isPlain = parts.every(
    (part) =>
      part.kind === 'register' && isClockedAt(workshop, journey, part) && isFreeOfControls(workshop, journey, part),
  );
  if (edges !== 'one' || !isPlain) return null;
  if ([...extent.state, ...extent.held].some((variable) => levels[variable] > 1)) return null;
  const data = parts.map((part) => (part as StoredPart).data);
  const known = new Set([...extent.state, ...extent.held]);
  const heard = [...data.flatMap((literal) => supportOf(workshop, literal)), ...group.recorded];
  // What is recorded beyond the extent only stands still here: bits cut off are among the held ones.
  const isKnown = heard.every((variable) => known.has(variable) || group.part(variable).kind === 'root');
  return isKnown ? compileProgram(workshop.logic.gates, data) : null;
}

function isClockedAt({ logic }: Workshop, { group, restLevel }: Journey, { trigger }: StoredPart): boolean {
  const gate = gateOf(trigger);
  if (logic.gates.kind[gate] !== GateKind.variable || group.part(logic.gates.a[gate]).kind !== 'root') return false;
  return (trigger & 1) === restLevel;
}

/** Controls are tied, or a port that is not chosen, and inactive; anything else is left to the stepper. */
export function isFreeOfControls({ logic }: Workshop, { levels, inputs }: Journey, { controls }: StoredPart): boolean {
  return controls.every(({ active }) => {
    if (active === zeroLiteral) return true;
    const gate = gateOf(active);
    if (logic.gates.kind[gate] !== GateKind.variable) return false;
    const port = logic.gates.a[gate];
    const isChosen = inputs.choices.some(({ variable }) => variable === port);
    return !isChosen && logic.variables[port].kind === 'input' && (levels[port] ^ (active & 1)) === 0;
  });
}

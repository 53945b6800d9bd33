// A signal's tally once it has been asked about: proven silent, or with the one transition that the answer gives, which
// hangs on levels that may never be reached.

import type { Limits } from '../budget';
import type { BitNames } from '../netlist/bit-names';
import type { Transition } from './glitch-forest';
import type { Choice, FreeInputs } from './glitch-inputs';
import type { Workshop } from './glitch-parts';
import { askWhether } from './glitch-query';
import { registerBitsOf } from './glitch-sources';
import type { Journey } from './glitch-states';
import { levelsOf, type Tally } from './glitch-tally';
import { judgeTransition } from './glitch-verdict';

/** Gates evaluated per state that the limit allows. */
const workPerState = 64;

export interface AskContext {
  readonly names: BitNames;
  readonly limits: Limits;
}

export function* asked(tally: Tally, journey: Journey, { names, limits }: AskContext): Generator<void, Tally> {
  const { scene } = tally.candidate;
  const answer = yield* askWhether(scene, journey, workPerState * limits.states);
  if (answer.kind === 'cannot') return { ...tally, isProven: true };
  if (answer.kind === 'open') return tally;
  const { transition } = answer;
  const judgement = judgeTransition(scene, transition, limits);
  // The answer takes any order as possible; the delays may fix one that is clean, and others were not asked about.
  if (judgement === null || (judgement.kind !== 'certain' && judgement.kind !== 'possible')) return tally;
  const bits = registerBitsOf(scene).map(({ variable }) => variable);
  const found = {
    judgement,
    from: levelsOf(transition.before, bits),
    to: levelsOf(transition.after, bits),
    way: { before: null, setting: 0, period: 0 },
    inputs: supposed(scene.workshop, names, journey, transition),
  };
  return { ...tally, [judgement.kind]: [found], settled: judgement.settled };
}

/** Everything that the answer supposes, as choices that stand as it has them: the bits followed are among them. */
function supposed(
  { logic }: Workshop,
  names: BitNames,
  { extent, inputs }: Journey,
  { before }: Transition,
): FreeInputs {
  const levelOf = (variable: number) => (before[variable] === 1 ? 1 : 0);
  const followed = extent.state.map((variable): Choice => {
    const { bit } = logic.variables[variable];
    return {
      variable,
      bit,
      signal: names.nameOf(bit) ?? '',
      usual: levelOf(variable),
      kind: 'cut',
      clock: null,
      mask: 0,
    };
  });
  const chosen = inputs.choices.map((choice) => ({ ...choice, usual: levelOf(choice.variable) as 0 | 1 }));
  return { ...inputs, choices: [...followed, ...chosen], settings: 1, cut: inputs.cut + followed.length };
}

// Blocks of so many changes that their sets cannot all be tried: whether some order inside a block leaves the target's
// level and comes back to it is asked of `glitch-solve.ts`. What every order does is the sum of what each block does, so
// the blocks are asked one by one.

import type { Blocks } from './glitch-blocks';
import { exampleOfSteps, type ForestCase, type Found } from './glitch-case';
import { forestWorld } from './glitch-forest-world';
import {
  and,
  choose,
  createGates,
  type Gates,
  type Literal,
  not,
  oneLiteral,
  rebuilt,
  unknownLiteral,
  variableOf,
  zeroLiteral,
} from './glitch-gates';
import { leastBetween } from './glitch-judge-blocks';
import { coneOf } from './glitch-parts';
import { type Solution, solve } from './glitch-solve';
import { mostAfter } from './glitch-times';
import { clean } from './glitch-wave';

export interface WideVerdict {
  readonly found: Found;
  readonly isUnknown: boolean;
  readonly isVague: boolean;
}

/** `mostWork`: gates evaluated per block. `open`: not decided within that. */
export function judgeWide(forestCase: ForestCase, blocks: Blocks, mostWork: number): WideVerdict | 'open' {
  const { scene, transition, timed, observed } = forestCase;
  const world = forestWorld(scene, transition, timed, observed);
  const prefixes = blocks.blocks.map((_, index) => blocks.blocks.slice(0, index).flat());
  const levels = [...prefixes, blocks.blocks.flat()].map((happened) => world.levelOf(happened));
  const isVague = world.mayPulse(observed);
  if (levels.includes(null)) return { found: nothing, isUnknown: true, isVague };
  const known = levels as readonly (0 | 1)[];
  const answers = blocks.blocks.map((_, index) => askBlock(forestCase, blocks, index, known[index], mostWork));
  const between = [...blocks.blocks.keys()].filter((index) => known[index] !== known[index + 1]);
  const certain = between.length >= 2;
  const isPossible = certain || answers.some(({ kind }) => kind === 'found');
  if (!isPossible)
    return answers.some(({ kind }) => kind === 'open') ? 'open' : { found: nothing, isUnknown: false, isVague };
  const order = blocks.blocks.flatMap((block, index) => ordered(block, answers[index]));
  const steps = { first: known[0], order, changes: changesAlong(world.levelOf, known[0], order) };
  const found: Found = {
    possible: true,
    certain,
    width: { min: certain ? leastBetween(timed, blocks, between) : 0, max: mostApart(forestCase) },
    basis: certain ? 'order' : 'open-order',
    example: steps.changes.length < 2 ? null : exampleOfSteps(timed, steps),
  };
  return { found, isUnknown: false, isVague };
}

const nothing: Found = { ...clean, basis: 'order', example: null };

/** Variables of the question: by event, whether it is among the early ones, and whether among those that follow. */
const early = (event: number): number => 2 * event;
const late = (event: number): number => 2 * event + 1;

/** The early changes of the block take the target off its level, those that follow bring it back. */
function askBlock(forestCase: ForestCase, { blocks }: Blocks, index: number, level: 0 | 1, mostWork: number): Solution {
  if (blocks[index].length < 2) return { kind: 'none' };
  const gates = createGates();
  const before = new Set(blocks.slice(0, index).flat());
  const off = targetWhere(forestCase, gates, before, (event) =>
    blocks[index].includes(event) ? variableOf(gates, early(event)) : zeroLiteral,
  );
  const back = targetWhere(forestCase, gates, before, (event) =>
    blocks[index].includes(event)
      ? choose(gates, variableOf(gates, early(event)), oneLiteral, variableOf(gates, late(event)))
      : zeroLiteral,
  );
  const passes = level === 0 ? and(gates, off, not(back)) : and(gates, not(off), back);
  return solve(gates, passes, { order: blocks[index].flatMap((event) => [early(event), late(event)]), mostWork });
}

/** The target where events of `before` have happened, and others if `hasHappened`. */
function targetWhere(
  { scene, transition, timed }: ForestCase,
  gates: Gates,
  before: ReadonlySet<number>,
  hasHappened: (event: number) => Literal,
): Literal {
  const eventOf = new Map(timed.forest.map(({ variable }, event) => [variable, event]));
  const levelOf = (level: number): Literal => (level === 0 ? zeroLiteral : level === 1 ? oneLiteral : unknownLiteral);
  const { target: literal, workshop } = scene;
  return rebuilt(workshop.logic.gates, gates, { literal, cone: coneOf(workshop, literal) }, (variable) => {
    const event = eventOf.get(variable);
    if (scene.part(variable).kind === 'opaque') return unknownLiteral;
    const [old, now] = [levelOf(transition.before[variable]), levelOf(transition.after[variable])];
    if (event === undefined) return old;
    return before.has(event) ? now : choose(gates, hasHappened(event), now, old);
  });
}

function ordered(block: readonly number[], answer: Solution): readonly number[] {
  if (answer.kind !== 'found') return block;
  const isEarly = (event: number) => answer.levels.get(early(event)) === 1;
  const isLate = (event: number) => !isEarly(event) && answer.levels.get(late(event)) === 1;
  return [
    ...block.filter(isEarly),
    ...block.filter(isLate),
    ...block.filter((event) => !isEarly(event) && !isLate(event)),
  ];
}

function changesAlong(
  levelOf: (happened: readonly number[]) => 0 | 1 | null,
  first: 0 | 1,
  order: readonly number[],
): readonly number[] {
  let now = first;
  return order.filter((_, index) => {
    const level = levelOf([...order.slice(0, index + 1)].sort((left, right) => left - right));
    if (level === null || level === now) return false;
    now = level;
    return true;
  });
}

function mostApart({ timed, observed }: ForestCase): number {
  let most = 0;
  for (const first of observed) {
    for (const second of observed) {
      if (first !== second) most = Math.max(most, mostAfter(timed.times, first + 1, second + 1));
    }
  }
  return most;
}

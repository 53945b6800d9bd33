// One instant in terms, step by step, as `predict/settled.ts` steps through values: registers whose pins may have moved
// answer from the values before the instant, then what they clock, until no pin and no control can move any more.
// What may hang on the order within an instant is a doubt; a circuit that clears itself never comes to an end here.

import { Op } from '../netlist/operators';
import type { RegisterId } from '../netlist/netlist';
import type { CycleQuestion, PlannedState, SourceChange } from './plan';
import { Kind, type Term } from './term-kinds';
import { bitOf, chooseWord, joinWords, mergeWords, not, sameWord, sliceWord, type Word } from './words';
import { changedTerm, changeWord, settleWords, type World } from './world';

/** More steps in one instant than this are not written out. */
const mostSteps = 70;

export function takeInstant(world: World, question: CycleQuestion, changes: readonly SourceChange[]): void {
  const before = world.words.slice();
  for (const change of changes) setLevel(world, change);
  let previous = before;
  for (let step = 1; world.refusal === null; step++) {
    settleWords(world);
    const called = world.plan.registers.filter((register) => isCalled(world, previous, register));
    if (called.length === 0 || world.refusal !== null) return;
    if (step > mostSteps) {
      world.refusal = 'clears-itself';
      return;
    }
    const views = { before, previous, isFirst: step === 1 };
    const answers = called.map((register) => answerOf(world, question, views, register));
    previous = world.words.slice();
    for (const [index, { position }] of called.entries()) changeWord(world, position, answers[index]);
  }
}

function setLevel(world: World, { position, bit, level }: SourceChange): void {
  const { terms, words } = world;
  const word = words[position];
  const one: Word = { width: 1, a: [terms.constant(BigInt(level))], b: [terms.zero] };
  const parts = [sliceWord(terms, word, bit + 1, word.width - bit - 1), one, sliceWord(terms, word, 0, bit)];
  changeWord(
    world,
    position,
    joinWords(
      terms,
      parts.filter(({ width }) => width > 0),
    ),
  );
}

/** Whether its pin or one of its controls can have moved. */
function isCalled({ terms, words }: World, previous: readonly Word[], register: PlannedState): boolean {
  const { asynchronous, clock, clockBit } = register;
  const isBitMoved = (position: number, bit: number) => {
    if (words[position] === previous[position]) return false;
    const [now, then] = [bitOf(terms, words[position], bit), bitOf(terms, previous[position], bit)];
    return now.a !== then.a || now.b !== then.b;
  };
  return (
    isBitMoved(clock, clockBit) ||
    asynchronous.some(({ bit, control, value }) => isBitMoved(control, bit) || !sameWord(words[value], previous[value]))
  );
}

interface Views {
  /** Before the instant, and when registers were called last. */
  readonly before: readonly Word[];
  readonly previous: readonly Word[];
  readonly isFirst: boolean;
}

function answerOf(world: World, question: CycleQuestion, views: Views, register: PlannedState): Word {
  const { terms, words } = world;
  const now = words[register.position];
  const edge = edgeOf(world, views.previous, register);
  let to = now;
  if (edge.any !== terms.zero) {
    const sample = sampleOf(world, question, views, register, edge.any);
    to = chooseWord(terms, edge.certain, sample, now);
    to = chooseWord(terms, edge.perhaps, mergeWords(terms, now, sample), to);
  }
  for (const use of [...register.asynchronous].reverse()) {
    const active = activityOf(world, views, use, edge.any);
    const loaded = words[use.value];
    to = chooseWord(terms, active.perhaps, mergeWords(terms, to, loaded), chooseWord(terms, active.yes, loaded, to));
  }
  return to;
}

interface Edge {
  readonly any: Term;
  readonly certain: Term;
  readonly perhaps: Term;
}

/** From or to an unknown level: perhaps. */
function edgeOf({ terms, words }: World, previous: readonly Word[], register: PlannedState): Edge {
  const { clock, clockBit } = register;
  const from = bitOf(terms, previous[clock], clockBit);
  const to = bitOf(terms, words[clock], clockBit);
  const isHigh = register.register.edge === 'rising';
  const and = (left: Term, right: Term) => terms.make(Kind.and, left, right);
  const or = (left: Term, right: Term) => terms.make(Kind.or, left, right);
  const atLevel = (level: { readonly a: Term; readonly b: Term }, high: boolean) =>
    and(high ? level.a : not(terms, level.a), not(terms, level.b));
  const differs = or(terms.make(Kind.different, from.a, to.a), terms.make(Kind.different, from.b, to.b));
  const begins = atLevel(from, !isHigh);
  const ends = atLevel(to, isHigh);
  const certain = and(begins, ends);
  const unknown = or(from.b, to.b);
  const perhaps = and(and(or(begins, ends), differs), and(unknown, not(terms, and(from.b, to.b))));
  return { any: or(certain, perhaps), certain, perhaps };
}

/** In a first step the data from before the instant; later, by the order of what has moved. */
function sampleOf(world: World, { order }: CycleQuestion, views: Views, register: PlannedState, edge: Term): Word {
  const { terms, words } = world;
  const { before } = views;
  if (views.isFirst) return before[register.data];
  const { moved, hasLatch } = movedSources(world, before, register.data);
  if (moved.length === 0 && !hasLatch) return before[register.data];
  const met = new Set(moved.map((position) => order(registerAt(world, position), register.register.id)));
  const [only] = met;
  if (met.size === 1 && only !== 'race' && !hasLatch)
    return only === 'old' ? before[register.data] : words[register.data];
  const some = moved.reduce<Term>(
    (any, position) => terms.make(Kind.or, any, changedTerm(world, before[position], words[position])),
    hasLatch ? changedTerm(world, before[register.data], words[register.data]) : terms.zero,
  );
  noteDoubt(world, terms.make(Kind.and, edge, some));
  return before[register.data];
}

function registerAt({ plan }: World, position: number): RegisterId | null {
  return plan.op[position] === Op.register ? (plan.aux[position] as RegisterId) : null;
}

/** The sources and registers behind a position that may have moved, and whether a latch stands between. */
function movedSources({ plan, words }: World, before: readonly Word[], start: number) {
  const seen = new Set([start]);
  const moved: number[] = [];
  let hasLatch = false;
  for (const position of seen) {
    const isLatch = plan.op[position] === Op.latch;
    hasLatch ||= isLatch && words[position] !== before[position];
    if (plan.op[position] <= Op.hole && !isLatch) {
      if (!sameWord(words[position], before[position])) moved.push(position);
      continue;
    }
    for (let index = plan.first[position]; index < plan.first[position + 1]; index++) seen.add(plan.pool[index]);
  }
  return { moved, hasLatch };
}

/** How a control acts; one released together with the edge is a doubt, one that acted only within the instant holds. */
function activityOf(
  world: World,
  { before, previous }: Views,
  { activeLevel, bit, control }: PlannedState['asynchronous'][number],
  edge: Term,
): { readonly yes: Term; readonly perhaps: Term } {
  const { terms, words } = world;
  const and = (left: Term, right: Term) => terms.make(Kind.and, left, right);
  const level = (from: readonly Word[]) => bitOf(terms, from[control], bit);
  const isActive = ({ a, b }: { readonly a: Term; readonly b: Term }) =>
    and(activeLevel === 1 ? a : not(terms, a), not(terms, b));
  const [now, last, first] = [level(words), level(previous), level(before)];
  const isIdle = and(not(terms, isActive(now)), not(terms, now.b));
  const meets = and(isIdle, edge);
  const moved = terms.make(
    Kind.or,
    terms.make(Kind.different, first.a, now.a),
    terms.make(Kind.different, first.b, now.b),
  );
  noteDoubt(world, and(meets, moved));
  const stays = and(meets, not(terms, moved));
  return {
    yes: terms.make(Kind.or, isActive(now), and(stays, isActive(last))),
    perhaps: terms.make(Kind.or, now.b, and(stays, last.b)),
  };
}

function noteDoubt(world: World, condition: Term): void {
  world.doubt = world.terms.make(Kind.or, world.doubt, condition);
}

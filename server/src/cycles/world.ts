// The values of all positions of a plan as words of terms, moving on with every change: what hears a changed word is
// worked out anew, operands first. What registers and latches hold when a period begins are its inputs.

import { Op } from '../netlist/operators';
import { applyOperator } from './apply';
import type { CyclePlan, CycleQuestion, CycleRefusal } from './plan';
import { Kind, type Term, type Terms } from './term-kinds';
import {
  bitOf,
  chooseWord,
  isKnown,
  limbsOf,
  maskOf,
  mergeWords,
  not,
  sameWord,
  type Word,
  wordOfBits,
  zeroPlane,
} from './words';

/** A register or latch: what it holds is kept from period to period. */
export interface StatePart {
  readonly position: number;
  readonly width: number;
  /** Whether it may be unknown: then both planes are kept. */
  readonly isOpen: boolean;
  /** The first of its inputs: limbs of the first plane, then those of the second. */
  readonly input: number;
}

export interface World {
  readonly plan: CyclePlan;
  readonly terms: Terms;
  readonly words: Word[];
  /** True while the period must not be taken. */
  doubt: Term;
  refusal: CycleRefusal | null;
  readonly isDirty: Uint8Array;
}

/** Terms beyond which a circuit is not compiled: a function of more would take a compiler too long. */
const mostTerms = 60_000;

export function statePartsOf(plan: CyclePlan, isOpen: ReadonlySet<number>): readonly StatePart[] {
  const positions = [
    ...plan.registers.map(({ position }) => position),
    ...plan.latches.map(({ node }) => plan.positionOf[node]),
  ];
  let input = 0;
  return positions.map((position) => {
    const part = { position, width: plan.width[position], isOpen: isOpen.has(position), input };
    input += limbsOf(part.width) * (part.isOpen ? 2 : 1);
    return part;
  });
}

/** Sources as they stand, state as inputs, everything else worked out. */
export function createWorld(terms: Terms, { plan, values }: CycleQuestion, state: readonly StatePart[]): World {
  const count = plan.nodes.length;
  const world: World = {
    plan,
    terms,
    words: new Array<Word>(count),
    doubt: terms.zero,
    refusal: plan.knots.length > 0 ? 'loop-without-register' : null,
    isDirty: new Uint8Array(count).fill(1),
  };
  for (let position = 0; position < count; position++) {
    if (plan.op[position] <= Op.hole) world.words[position] = sourceWord(terms, plan, values, position);
  }
  for (const part of state) world.words[part.position] = inputWord(terms, part);
  settleWords(world);
  return world;
}

function sourceWord(terms: Terms, plan: CyclePlan, values: CycleQuestion['values'], position: number): Word {
  const from = plan.offset[position];
  const width = plan.width[position];
  const until = from + ((width + 31) >>> 5);
  return wordOfBits(terms, { width, a: values.a.subarray(from, until), b: values.b.subarray(from, until) });
}

function inputWord(terms: Terms, { width, isOpen, input }: StatePart): Word {
  const limbs = limbsOf(width);
  const plane = (first: number) =>
    Array.from({ length: limbs }, (_, limb) => terms.input(first + limb, maskOf(width, limb).toString(2).length));
  return { width, a: plane(input), b: isOpen ? plane(input + limbs) : zeroPlane(terms, width) };
}

/** A source or register takes a new word. */
export function changeWord(world: World, position: number, word: Word): void {
  if (sameWord(world.words[position], word)) return;
  world.words[position] = word;
  const { readerFirst, readers } = world.plan;
  for (let index = readerFirst[position]; index < readerFirst[position + 1]; index++) {
    world.isDirty[readers[index]] = 1;
  }
}

/** Works out anew what hears a change. */
export function settleWords(world: World): void {
  const { isDirty, plan } = world;
  for (let position = 0; position < isDirty.length && world.refusal === null; position++) {
    if (isDirty[position] === 0) continue;
    isDirty[position] = 0;
    const op = plan.op[position];
    if (op <= Op.hole && op !== Op.latch) continue;
    const word = op === Op.latch ? latchWord(world, position) : operatorWord(world, position);
    if (word === null) world.refusal = 'operator-not-compiled';
    else if (world.words[position] === undefined) world.words[position] = word;
    else changeWord(world, position, word);
    if (world.terms.kinds.length > mostTerms) world.refusal = 'too-large';
  }
}

function operatorWord(world: World, position: number): Word | null {
  const { plan, terms, words } = world;
  const operands = Array.from(plan.pool.subarray(plan.first[position], plan.first[position + 1]), (at) => words[at]);
  const doubt = (condition: Term) => {
    world.doubt = terms.make(Kind.or, world.doubt, condition);
  };
  const applying = { terms, tables: plan.netlist, doubt };
  return applyOperator(applying, plan.op[position], operands, plan.width[position], plan.aux[position]);
}

/** As `evaluateLatch` of the interpreter: passes while open, else keeps; controls above both. */
function latchWord({ plan, terms, words }: World, position: number): Word {
  const latch = plan.netlist.latches[plan.aux[position]];
  const first = plan.first[position];
  const gate = bitOf(terms, words[plan.pool[first]], latch.gate.bit);
  let word = passed(terms, gate, latch.active, words[plan.pool[first + 1]], words[position]);
  for (let index = latch.asynchronous.length - 1; index >= 0; index--) {
    const { active, control } = latch.asynchronous[index];
    const level = bitOf(terms, words[plan.pool[first + 2 + 2 * index]], control.bit);
    word = passed(terms, level, active, words[plan.pool[first + 3 + 2 * index]], word);
  }
  return word;
}

function passed(
  terms: Terms,
  level: { readonly a: Term; readonly b: Term },
  active: 'high' | 'low',
  whenActive: Word,
  otherwise: Word,
): Word {
  const isActive = active === 'high' ? level.a : not(terms, level.a);
  const certain = chooseWord(terms, isActive, whenActive, otherwise);
  return chooseWord(terms, level.b, mergeWords(terms, whenActive, otherwise), certain);
}

/** Whether any bit of a word is different: 0 or 1. */
export function changedTerm({ terms }: World, before: Word, now: Word): Term {
  let some = terms.zero;
  for (const [limb, a] of now.a.entries()) {
    some = terms.make(Kind.or, some, terms.make(Kind.xor, a, before.a[limb]));
    if (isKnown(terms, now) && isKnown(terms, before)) continue;
    some = terms.make(Kind.or, some, terms.make(Kind.xor, now.b[limb], before.b[limb]));
  }
  return terms.make(Kind.different, some, terms.zero);
}

// A case statement as one n-way choice (IEEE 1364-2005 9.5): selector and labels at their common width and sign, in
// order; the first label that equals the selector wins. A label with x or z where nothing is a wildcard matches no
// hardware value: it is said and left out.

import { type Bits, bitsOf, digitAt, equalBits, hasUnknown, toBigInt, toBinary } from '../netlist/four-state';
import { resize, slice } from '../netlist/four-state-parts';
import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { gateOf, selectOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { Expression, Statement } from '../syntax/tables';
import type { Place } from '../text/place';
import { certain, isCertain, negated } from './conditions';
import { commonType, lowerIn } from './lower';
import type { Choice } from './merge-layers';
import { surroundingsOf, type Position, type Walk } from './walk';

export type CaseStatement = Extract<Statement, { kind: 'case' }>;

export interface Arm {
  readonly label: NodeId;
  /** Label bits that match anything; null where none does. */
  readonly wild: Bits | null;
  /** Which item of the statement. */
  readonly item: number;
}

export interface CaseArms {
  readonly selector: NodeId;
  readonly arms: readonly Arm[];
  /** Every value of the selector has an arm, so that nothing falls through to a default. */
  readonly isComplete: boolean;
}

export function armsOf(walk: Walk, position: Position, statement: CaseStatement): CaseArms {
  const at = surroundingsOf(walk, position);
  const labels = statement.items.flatMap((item) => item.labels);
  const type = commonType(at.context, [statement.selector, ...labels]);
  const selector = lowerIn(at, statement.selector, type);
  const arms = statement.items.flatMap(({ labels: own }, item) =>
    own.flatMap((expression) => {
      const arm = armOf(walk, statement, expression, lowerIn(at, expression, type), item);
      return arm === null ? [] : [arm];
    }),
  );
  const fitted = atOwnWidth(walk, { selector, arms });
  const { width } = walk.draft.nodes.nodes;
  const isComplete = saysComplete(statement, fitted.arms) || coversAll(walk, fitted.arms, width[fitted.selector]);
  return { ...fitted, isComplete };
}

/**
 * A selector that was widened only to meet its labels (`case (s) 0: …` compares 32 bits) goes back to its own width; a
 * constant label beyond it never matches.
 */
function atOwnWidth(walk: Walk, whole: Pick<CaseArms, 'selector' | 'arms'>): Pick<CaseArms, 'selector' | 'arms'> {
  const { nodes } = walk.draft;
  const narrow = beforeWidening(nodes, whole.selector);
  if (narrow === null) return whole;
  const { node: selector, fill } = narrow;
  const from = nodes.nodes.width[whole.selector];
  const width = nodes.nodes.width[selector];
  const arms: Arm[] = [];
  for (const { label, wild, item } of whole.arms) {
    const bits = nodes.constantOf(label);
    if (bits === null || wild !== null) return whole;
    const low = slice(bits, 0, width);
    if (!equalBits(resize(low, from, fill), bits)) continue;
    arms.push({ label: nodes.constant(low, nodes.places[nodes.nodes.place[label]]), wild, item });
  }
  return { selector, arms };
}

/** What a node was made from by widening it, if it was. */
function beforeWidening(
  { nodes, constantOf }: NodeBuilder,
  node: NodeId,
): { node: NodeId; fill: 'zero' | 'sign' } | null {
  const { op, first, arity, pool } = nodes;
  const top = pool[first[node]] as NodeId;
  if (op[node] === Op.signExtend) return { node: top, fill: 'sign' };
  if (op[node] !== Op.concat || arity[node] !== 2) return null;
  const zeros = constantOf(top);
  const isZero = zeros !== null && !hasUnknown(zeros) && zeros.a.every((limb) => limb === 0);
  return isZero ? { node: pool[first[node] + 1] as NodeId, fill: 'zero' } : null;
}

function armOf(walk: Walk, { match }: CaseStatement, { at }: Expression, label: NodeId, item: number): Arm | null {
  const { nodes, source, log } = walk.draft;
  const bits = nodes.constantOf(label);
  if (bits === null || !hasUnknown(bits)) return { label, wild: null, item };
  const digits = [...toBinary(bits)];
  const isWild = (digit: string) => (digit === 'z' && match !== 'case') || (digit === 'x' && match === 'casex');
  if (digits.some((digit) => (digit === 'x' || digit === 'z') && !isWild(digit))) {
    log.add('label-never-matches', { text: source.textOf(at) }, source.place(at));
    return null;
  }
  const wild = bitsOf(digits.map((digit) => (isWild(digit) ? '1' : '0')).join(''));
  const plain = bitsOf(digits.map((digit) => (isWild(digit) ? '0' : digit)).join(''));
  return { label: nodes.constant(plain, source.place(at)), wild, item };
}

/** `unique` and `priority` state that some item is always taken (IEEE 1800-2017 12.5.3). */
function saysComplete({ qualifier, items }: CaseStatement, arms: readonly Arm[]): boolean {
  const isStated = qualifier === 'unique' || qualifier === 'priority';
  return isStated && arms.length > 0 && items.every(({ isDefault }) => !isDefault);
}

/** Up to this width a case is asked whether its constant labels name every value. */
const widestCounted = 16;

function coversAll(walk: Walk, arms: readonly Arm[], width: number): boolean {
  if (width > widestCounted) return false;
  if (arms.length * 2 ** width > mostCompared) return false;
  const labels = arms.flatMap(({ label, wild }) => {
    const bits = walk.draft.nodes.constantOf(label);
    if (bits === null) return [];
    const free = wild === null ? 0 : Number(toBigInt(wild) ?? 0n);
    return [{ free, value: Number(toBigInt(bits) ?? 0n) & ~free }];
  });
  for (let value = 0; value < 2 ** width; value++) {
    if (!labels.some((label) => (value & ~label.free) === label.value)) return false;
  }
  return true;
}

/** Comparisons of values with labels, at most. */
const mostCompared = 1 << 20;

/** The item taken where selector and labels are constants; undefined where they are not. */
export function constantItem(walk: Walk, { selector, arms }: CaseArms): number | null | undefined {
  const { nodes } = walk.draft;
  const value = nodes.constantOf(selector);
  if (value === null || hasUnknown(value)) return undefined;
  for (const { label, wild, item } of arms) {
    const bits = nodes.constantOf(label);
    if (bits === null) return undefined;
    if (matches(value, bits, wild)) return item;
  }
  return null;
}

function matches(value: Bits, label: Bits, wild: Bits | null): boolean {
  for (let bit = 0; bit < value.width; bit++) {
    const isFree = wild !== null && digitAt(wild, bit) === '1';
    if (!isFree && digitAt(value, bit) !== digitAt(label, bit)) return false;
  }
  return true;
}

/**
 * Chooses between one value per item and, last, the one where no label matches. Of a complete case that last one is
 * never taken; the last arm stands there instead.
 */
export function caseChoice(walk: Walk, statement: Statement, caseArms: CaseArms): Choice {
  const { nodes, source } = walk.draft;
  const place = source.place(statement.at);
  const { selector, arms, isComplete } = caseArms;
  const listed = isComplete ? arms.slice(0, -1) : arms;
  const last = isComplete ? arms.at(-1) : undefined;
  const wildcards = listed.some(({ wild }) => wild !== null)
    ? nodes.addWildcards(listed.map(({ wild, label }) => wild ?? bitsOf('0'.repeat(nodes.nodes.width[label]))))
    : -1;
  const choose = (values: readonly NodeId[]) => {
    const otherwise = values[last === undefined ? values.length - 1 : last.item];
    if (listed.length === 0) return otherwise;
    const entries = listed.map(({ label, item }) => ({ label, value: values[item] }));
    return selectOf(nodes, selector, entries, otherwise, wildcards, place);
  };
  return {
    value: choose,
    condition(conditions) {
      const taken = isComplete ? conditions.slice(0, -1) : conditions;
      if (taken.every((condition) => isCertain(nodes, condition, 1))) return certain(nodes, 1, place);
      return choose(conditions);
    },
  };
}

/**
 * Where labels are different constants, an item is taken when its own labels say so, whatever stands before it; `item`
 * null: when none does. Null where order matters.
 */
export function plainCondition(
  walk: Walk,
  { selector, arms }: CaseArms,
  item: number | null,
  place: Place,
): NodeId | null {
  const { nodes } = walk.draft;
  const labels = new Set(arms.map(({ label }) => label));
  const isPlain = arms.every(({ label, wild }) => wild === null && nodes.constantOf(label) !== null);
  if (!isPlain || labels.size !== arms.length) return null;
  const own = item === null ? arms : arms.filter((arm) => arm.item === item);
  const hits = own.map(({ label }) => nodes.add(Op.equal, 1, [selector, label], 0, place));
  const any =
    hits.length === 1 ? hits[0] : hits.length === 0 ? certain(nodes, 0, place) : gateOf(nodes, Op.or, hits, place);
  return item === null ? negated(nodes, any, place) : any;
}

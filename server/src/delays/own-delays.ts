// Delays that a person states for single things and not for the whole design: which set each of them takes. What a
// statement leaves open stays as the design's set has it; which thing a name means is found elsewhere.

import type { LatchId, NodeId, RegisterId } from '../netlist/netlist';
import type { DelaySet } from './delay-set';
import { timedEntries } from './unstated';

/** The entries of a set, each stated or null: here null means "as the design's set". */
export type StatedDelays = Omit<DelaySet, 'name' | 'clockToQ' | 'own'> & {
  readonly clockToQ: DelaySet['clockToQ'] | null;
};

/** Names of the entries that are stated, in the order of the form. */
export function statedEntries(stated: StatedDelays): readonly (keyof StatedDelays)[] {
  return entryNames.filter((name) => stated[name] !== null);
}

/** The set with what is stated in its place; classes of logic one by one. */
export function overlaySet(set: DelaySet, stated: StatedDelays): DelaySet {
  const replaced = Object.fromEntries(statedEntries(stated).map((name) => [name, stated[name]]));
  const logic = stated.logic === null ? set.logic : { ...set.logic, ...stated.logic };
  return { ...set, ...replaced, logic };
}

export function setOfRegister(set: DelaySet, register: RegisterId): DelaySet {
  return set.own?.registers.get(register) ?? set;
}

export function setOfLatch(set: DelaySet, latch: LatchId): DelaySet {
  return set.own?.latches.get(latch) ?? set;
}

export function setOfNode(set: DelaySet, node: NodeId): DelaySet {
  return set.own?.nodes.get(node) ?? set;
}

/** The set itself and every other that something takes instead, each once. */
export function everySet(set: DelaySet): readonly DelaySet[] {
  const { own } = set;
  if (own === undefined) return [set];
  return [...new Set([set, ...own.registers.values(), ...own.latches.values(), ...own.nodes.values()])];
}

const entryNames = ['sheet', 'conditions', 'clockToQ', 'stagesPerPart', ...timedEntries] as const;

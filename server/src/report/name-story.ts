// What there is to tell of a name in the text: a signal with its account, a parameter with its values, a module with what it
// holds. Nothing of other names: a label or an instance says all there is where it stands.

import { describeModules } from './module-contents';
import type { NameUse } from './name-table';
import { tellSignal } from './signal-story';
import { parametersMeant, signalsMeant } from './signals-meant';
import type { Study } from './study';

export interface NameStory {
  /** Full name of the signal that the account is of; null for what is no signal. */
  readonly signal: string | null;
  readonly facts: readonly string[];
  readonly account: readonly string[];
}

/** `uses`: of one name, wherever it stands. Null where there is nothing to tell. */
export function* tellName(study: Study, uses: readonly NameUse[]): Generator<void, NameStory | null> {
  if (uses.length === 0) return null;
  const signals = yield* signalsMeant(study, uses);
  if (signals.length > 0) return yield* tellSignal(study, signals);
  const facts = [...(yield* parameterFacts(study, uses)), ...(yield* moduleFacts(study, uses))];
  return facts.length === 0 ? null : { signal: null, facts, account: [] };
}

const mostInstances = 4;

function* parameterFacts(study: Study, uses: readonly NameUse[]): Generator<void, readonly string[]> {
  const found = yield* parametersMeant(study, uses);
  const values = new Set(found.map(({ value }) => value));
  if (values.size < 2) return [...values].map((value) => `${uses[0].name} is ${value}`);
  const some = found.slice(0, mostInstances).map(({ instance, value }) => `${value} in ${instance}`);
  const more = found.length > mostInstances ? ` and ${found.length - mostInstances} more` : '';
  return [`${uses[0].name} differs by instance: ${some.join(', ')}${more}`];
}

function* moduleFacts(study: Study, uses: readonly NameUse[]): Generator<void, readonly string[]> {
  const header = uses.find(({ isModule, role }) => isModule && role === 'declared');
  if (header === undefined) return [];
  const modules = yield* describeModules(study);
  const words = modules.find(({ name }) => name === header.name)?.words ?? '';
  return words === '' ? [] : [`${header.name}: ${words}`];
}

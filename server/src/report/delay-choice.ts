// The delays that a study runs with: a set of the project by name or one that comes with the tool, and what the project
// states for single instances and signals.

import { builtInDelaySet, builtInDelaySets } from '../delays/built-in-sets';
import type { DelaySet } from '../delays/delay-set';
import type { StatedDelays } from '../delays/own-delays';
import { type DelayComplaint, parseDelays, parseDelaySet } from '../delays/parse-delay-set';
import { delayComplaintWords } from '../explain/delay-complaints';
import type { StudyOptions } from './options';
import { refuse } from './refusal';

/** Throws a `Refusal` where no set is called so, or where what the project states of delays is wrong. */
export function chooseDelaySet(options: StudyOptions): DelaySet {
  const { delays, delaySets } = options;
  statedOverrides(options);
  if (Object.hasOwn(delaySets, delays)) return ownSet(delays, delaySets[delays]);
  const names = [...builtInDelaySets.map(({ name }) => name), ...Object.keys(delaySets)];
  return builtInDelaySet(delays) ?? refuse(`no delay set is called ${delays}: ${names.join(', ')}`);
}

function ownSet(name: string, written: unknown): DelaySet {
  const parsed = parseDelaySet(name, written);
  if (parsed.kind === 'set') return parsed.set;
  return refuse(`delay set ${name}: ${wordsOf(parsed.complaints)}`);
}

/** By the name of what they are stated for, in the order of the file. Throws a `Refusal` where one is wrong. */
export function statedOverrides({ overrides }: StudyOptions): ReadonlyMap<string, StatedDelays> {
  return new Map(
    Object.entries(overrides).map(([name, written]) => {
      const parsed = parseDelays(written);
      if (parsed.kind === 'delays') return [name, parsed.delays];
      return refuse(`overrides of ${name}: ${wordsOf(parsed.complaints)}`);
    }),
  );
}

function wordsOf(complaints: readonly DelayComplaint[]): string {
  return complaints.map(delayComplaintWords).join('; ');
}

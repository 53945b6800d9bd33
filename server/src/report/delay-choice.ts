// The delay set that a study runs with: one of the project's own by name, or one that comes with the tool.

import { builtInDelaySet, builtInDelaySets } from '../delays/built-in-sets';
import type { DelaySet } from '../delays/delay-set';
import { parseDelaySet } from '../delays/parse-delay-set';
import { delayComplaintWords } from '../explain/delay-complaints';
import type { StudyOptions } from './options';
import { refuse } from './refusal';

/** Throws a `Refusal` where no set is called so, or where the project's set is wrong. */
export function chooseDelaySet({ delays, delaySets }: StudyOptions): DelaySet {
  if (Object.hasOwn(delaySets, delays)) return ownSet(delays, delaySets[delays]);
  const names = [...builtInDelaySets.map(({ name }) => name), ...Object.keys(delaySets)];
  return builtInDelaySet(delays) ?? refuse(`no delay set is called ${delays}: ${names.join(', ')}`);
}

function ownSet(name: string, written: unknown): DelaySet {
  const parsed = parseDelaySet(name, written);
  if (parsed.kind === 'set') return parsed.set;
  return refuse(`delay set ${name}: ${parsed.complaints.map(delayComplaintWords).join('; ')}`);
}

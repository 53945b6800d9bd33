// A sentence for every way in which a delay set in the project file can be wrong.

import type { DelayComplaint } from '../delays/parse-delay-set';

export function delayComplaintWords({ args, reason }: DelayComplaint): string {
  return `${args.at === '' ? 'the set' : args.at} ${sentences[reason]}`;
}

const sentences: Readonly<Record<DelayComplaint['reason'], string>> = {
  'delay-not-object': 'must be an object',
  'delay-unknown-key': 'is not a known key',
  'delay-missing': 'is missing',
  'delay-not-time': 'must be whole ps from 0 on: one number, [min, typ, max] or { min, typ, max }',
  'delay-not-ordered': 'must rise from min over typ to max',
  'delay-not-text': 'must be a text in quotes',
  'delay-not-count': 'must be a whole number, at least 1',
};

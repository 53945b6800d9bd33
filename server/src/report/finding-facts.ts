// Which facts a finding carries, by its identifier. More may be added; these keep their name and meaning. Findings of
// reading carry their reason and whatever its sentence names.

import type { FindingId } from '../hazards/finding';
import { partial, type Shape, text } from './shape';

const reading = partial({ reason: text('which sentence') }, ['reason']);

export const findingFacts: Readonly<Partial<Record<FindingId, Shape>>> = {
  syntax: reading,
  unsupported: reading,
  'limit-reached': reading,
  'unresolved-name': reading,
  'unresolved-module': reading,
};

// `bus-crossing`: several bits that may change at one edge of their clock are sampled by another, unrelated one. However many
// flip-flops stand behind each bit, some bits may come a period later than the others: a value is read that never was.

import type { FindingRule } from './context';
import { bareCrossings, crossingFinding } from './crossing-subject';

export const busCrossing: FindingRule = {
  id: 'bus-crossing',
  find: (context) =>
    bareCrossings(context)
      .filter(({ isBus }) => isBus)
      .map((crossing) => crossingFinding('bus-crossing', context, crossing)),
};

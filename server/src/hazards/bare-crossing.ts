// `bare-crossing`: a register samples what another, unrelated clock launches, with no synchronizer behind it. One per
// sampling register and domain that it samples from. Several bits that may change together are a `bus-crossing`, logic
// before two flip-flops in a row is `logic-before-synchronizer`.

import { isBehindLogic } from './logic-before-synchronizer';
import type { FindingRule } from './context';
import { bareCrossings, crossingFinding } from './crossing-subject';

export const bareCrossing: FindingRule = {
  id: 'bare-crossing',
  find: (context) =>
    bareCrossings(context)
      .filter((crossing) => !crossing.isBus && !isBehindLogic(crossing))
      .map((crossing) => crossingFinding('bare-crossing', context, crossing)),
};

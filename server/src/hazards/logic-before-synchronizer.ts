// `logic-before-synchronizer`: flip-flops in a row are there, but the first of them samples logic: what that passes on its
// way to a new value may be caught, and is then brought over as if it had been meant.

import type { Crossing } from '../clocks/network';
import type { FindingRule } from './context';
import { bareCrossings, crossingFinding } from './crossing-subject';

export const logicBeforeSynchronizer: FindingRule = {
  id: 'logic-before-synchronizer',
  find: (context) =>
    bareCrossings(context)
      .filter(isBehindLogic)
      .map((crossing) => crossingFinding('logic-before-synchronizer', context, crossing)),
};

export function isBehindLogic({ depth, isBus, throughLogic }: Crossing): boolean {
  return throughLogic && depth >= 2 && !isBus;
}

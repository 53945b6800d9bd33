// `narrow-pulse`: a clock or control whose pulse, or whose period, is shorter than the text or the delay set asks for
// (IEEE 1364-2005 15.3). Of a root clock of which nobody has said how fast it is, the delay set's limit is told once: its
// period, or its pulse where no period is stated; what is made from it follows.

import type { Violation } from '../predict/check-runs';
import type { FindingRule, HazardContext } from './context';
import { violationFindings } from './timing-violations';

export const narrowPulse: FindingRule = {
  id: 'narrow-pulse',
  find: (context) => violationFindings({ ...context, violations: oncePerAssumedRoot(context) }, 'narrow-pulse', kinds),
};

const kinds = new Set(['width', 'period'] as const);

function oncePerAssumedRoot(context: HazardContext): readonly Violation[] {
  const told = new Map<number, Violation>();
  for (const violation of context.violations) {
    const root = assumedRoot(context, violation);
    if (root === null) continue;
    const known = told.get(root);
    if (known === undefined || (known.check.kind === 'width' && violation.check.kind === 'period'))
      told.set(root, violation);
  }
  return context.violations.filter((violation) => {
    const root = assumedRoot(context, violation);
    return root === null || told.get(root) === violation;
  });
}

/** Null where somebody has stated the clock, or the limit stands in the text. */
function assumedRoot({ network }: HazardContext, { check, clockAssumed }: Violation): number | null {
  if (!clockAssumed || check.register === null || (check.kind !== 'width' && check.kind !== 'period')) return null;
  return network.clocks[network.registers[check.register].clock]?.root ?? null;
}

// Every cure, and the way from a finding to those that can be tried on it.

import type { Finding } from '../hazards/finding';
import { assignAtTheEnd } from './assign-at-the-end';
import type { CureContext, CureRule, Proposal } from './cure';
import { firstValue } from './first-value';
import { listAllReads } from './list-all-reads';
import { oneClock } from './one-clock';
import { resetInStep } from './reset-in-step';
import { twoFlops } from './two-flops';

export const cureRules: readonly CureRule[] = [
  oneClock,
  twoFlops,
  resetInStep,
  firstValue,
  assignAtTheEnd,
  listAllReads,
];

export function proposalsFor(context: CureContext, finding: Finding): readonly Proposal[] {
  return cureRules
    .filter((rule) => rule.finding === finding.id)
    .flatMap((rule) => rule.propose(context, finding) ?? []);
}

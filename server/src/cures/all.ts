// Every cure, and the way from a finding to those that can be tried on it.

import type { Finding } from '../hazards/finding';

import type { CureContext, CureRule, Proposal } from './cure';
import { firstValue } from './first-value';
import { listAllReads } from './list-all-reads';
import { edgeToEnable } from './edge-to-enable';
import { gateToEnable } from './gate-to-enable';
import { oneClock } from './one-clock';
import { oneKind } from './one-kind';
import { registerDecode } from './register-decode';
import { resetInStep } from './reset-in-step';
import { twoFlops } from './two-flops';
import { wayBack } from './way-back';

export const cureRules: readonly CureRule[] = [
  oneClock,
  edgeToEnable,
  gateToEnable,
  ...registerDecode,
  twoFlops,
  resetInStep,
  firstValue,
  ...oneKind,
  listAllReads,
  wayBack,
];

export function proposalsFor(context: CureContext, finding: Finding): readonly Proposal[] {
  return cureRules
    .filter((rule) => rule.finding === finding.id)
    .flatMap((rule) => rule.propose(context, finding) ?? []);
}

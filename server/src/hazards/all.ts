// Every rule, run in one order, weighed and sorted. The report joins what several instances say about one place.

import { comparePlaces } from '../clocks/network';
import { compareText } from '../text/compare';
import { bareCrossing } from './bare-crossing';
import { busCrossing } from './bus-crossing';
import { clockAsData } from './clock-as-data';
import { combinationalLoop } from './combinational-loop';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { decodedGlitch } from './decoded-glitch';
import { decodedReset } from './decoded-reset';
import { derivedClock } from './derived-clock';
import type { Finding } from './finding';
import { gatedClock } from './gated-clock';
import { glitchIntoClock } from './glitch-into-clock';
import { glitchIntoLatch } from './glitch-into-latch';
import { glitchIntoReset } from './glitch-into-reset';
import { logicBeforeSynchronizer } from './logic-before-synchronizer';
import { mixedAssignment } from './mixed-assignment';
import { narrowPulse } from './narrow-pulse';
import { oppositeEdges } from './opposite-edges';
import { rawInput } from './raw-input';
import { readWhileSettling } from './read-while-settling';
import { recoveryRemoval } from './recovery-removal';
import { rejoinedCrossing } from './rejoined-crossing';
import { resetCrossing } from './reset-crossing';
import { resetInEnable } from './reset-in-enable';
import { resetRelease } from './reset-release';
import { rippleChain } from './ripple-chain';
import { setupHold } from './setup-hold';
import { sharedDriver } from './shared-driver';
import { shortPulseCrossing } from './short-pulse-crossing';
import { skewedTransfer } from './skewed-transfer';
import { staleSensitivity } from './stale-sensitivity';
import { structuralHazard } from './structural-hazard';
import { switchedClock } from './switched-clock';
import { textRace } from './text-race';
import { trapState } from './trap-state';
import { unclearClock } from './unclear-clock';
import { unintendedLatch } from './unintended-latch';
import { unknownStart } from './unknown-start';
import { severityOf } from './weights';

/** What structure and prediction tell: these rules ask for no glitches. */
const plainRules: readonly FindingRule[] = [
  derivedClock,
  rippleChain,
  gatedClock,
  switchedClock,
  unclearClock,
  skewedTransfer,
  setupHold,
  recoveryRemoval,
  narrowPulse,
  readWhileSettling,
  oppositeEdges,
  clockAsData,
  bareCrossing,
  busCrossing,
  logicBeforeSynchronizer,
  rejoinedCrossing,
  shortPulseCrossing,
  rawInput,
  resetRelease,
  resetCrossing,
  decodedReset,
  resetInEnable,
  structuralHazard,
  unintendedLatch,
  combinationalLoop,
  unknownStart,
  trapState,
  mixedAssignment,
  staleSensitivity,
  sharedDriver,
  textRace,
];

const glitchRules: readonly FindingRule[] = [decodedGlitch, glitchIntoClock, glitchIntoReset, glitchIntoLatch];

export const rules: readonly FindingRule[] = [...plainRules, ...glitchRules];

/** The findings that ask for no search for glitches, sorted by place; yields between rules. */
export function* findPlainHazards(context: Omit<HazardContext, 'glitches'>): Generator<void, readonly Finding[]> {
  return yield* findBy(plainRules, { ...context, glitches: [] });
}

/** All findings about the design, sorted by place: `plain` and those about glitches; yields between rules. */
export function* findHazards(context: HazardContext, plain: readonly Finding[]): Generator<void, readonly Finding[]> {
  return [...plain, ...(yield* findBy(glitchRules, context))].sort(compareFindings);
}

function* findBy(some: readonly FindingRule[], context: HazardContext): Generator<void, readonly Finding[]> {
  const found: Finding[] = [];
  for (const rule of some) {
    found.push(...rule.find(context).map(weighed));
    yield;
  }
  return found.sort(compareFindings);
}

function weighed({ instance, weight, ...finding }: RawFinding): Finding {
  return { ...finding, severity: severityOf(finding.id, finding.certainty, weight), instances: [instance] };
}

function compareFindings(left: Finding, right: Finding): number {
  return comparePlaces(left.place, right.place) || compareText(left.id, right.id);
}

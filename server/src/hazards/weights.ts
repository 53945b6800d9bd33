// The weight of each finding: what the exit status and the squiggles follow. A test holds the whole table.

import type { WeightFacts } from './context';
import type { Certainty, FindingId, Severity } from './finding';

type Weigh = (certainty: Certainty | null, facts: WeightFacts) => Severity;

const always =
  (severity: Severity): Weigh =>
  () =>
    severity;

const certainIsError: Weigh = (certainty) => (certainty === 'certain' ? 'error' : 'warning');
const soundIsInformation: Weigh = (_certainty, { sound }) => (sound ? 'information' : 'warning');

const weights: Readonly<Record<FindingId, Weigh>> = {
  'derived-clock': always('warning'),
  'ripple-chain': always('warning'),
  'gated-clock': soundIsInformation,
  'switched-clock': soundIsInformation,
  'opposite-edges': always('information'),
  'clock-as-data': always('information'),
  'skewed-transfer': always('warning'),
  'unclear-clock': always('information'),
  'setup-hold': always('warning'),
  'recovery-removal': always('warning'),
  'narrow-pulse': always('warning'),
  'read-while-settling': always('warning'),
  'bare-crossing': always('warning'),
  'bus-crossing': always('error'),
  'logic-before-synchronizer': always('warning'),
  'rejoined-crossing': always('warning'),
  'short-pulse-crossing': always('warning'),
  'raw-input': always('information'),
  'reset-release': always('information'),
  'reset-crossing': always('warning'),
  'decoded-reset': always('warning'),
  'reset-in-enable': always('information'),
  'decoded-glitch': (certainty, { dangerous }) =>
    !dangerous ? 'hint' : certainty === 'certain' ? 'warning' : 'information',
  'structural-hazard': always('information'),
  'glitch-into-clock': certainIsError,
  'glitch-into-reset': certainIsError,
  'glitch-into-latch': certainIsError,
  'unintended-latch': always('warning'),
  'combinational-loop': always('error'),
  'unknown-start': always('information'),
  'trap-state': (_certainty, { reachable }) => (reachable ? 'warning' : 'hint'),
  'mixed-assignment': always('warning'),
  'stale-sensitivity': always('warning'),
  'shared-driver': (certainty) => (certainty === 'possible' ? 'warning' : 'error'),
  'text-race': always('warning'),
  syntax: always('error'),
  unsupported: always('warning'),
  'limit-reached': always('warning'),
  'unresolved-name': always('error'),
  'unresolved-module': (_certainty, { drivesClock }) => (drivesClock ? 'warning' : 'information'),
};

export function severityOf(id: FindingId, certainty: Certainty | null, facts: WeightFacts): Severity {
  return weights[id](certainty, facts);
}

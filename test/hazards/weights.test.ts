// The weight of every finding, written out: exit status and squiggles follow this table.

import { describe, expect, it } from 'vitest';
import type { WeightFacts } from '../../server/src/hazards/context';
import type { Certainty, FindingId, Severity } from '../../server/src/hazards/finding';
import { severityOf } from '../../server/src/hazards/weights';

type Row = readonly [Severity, FindingId, Certainty | null, WeightFacts];

const table: readonly Row[] = [
  ['error', 'syntax', null, {}],
  ['error', 'unresolved-name', null, {}],
  ['error', 'shared-driver', null, {}],
  ['warning', 'shared-driver', 'possible', {}],
  ['error', 'combinational-loop', 'certain', {}],
  ['error', 'combinational-loop', 'possible', {}],
  ['error', 'glitch-into-clock', 'certain', {}],
  ['error', 'glitch-into-reset', 'certain', {}],
  ['error', 'glitch-into-latch', 'certain', {}],
  ['error', 'bus-crossing', null, {}],
  ['warning', 'ripple-chain', null, {}],
  ['warning', 'derived-clock', null, {}],
  ['warning', 'gated-clock', 'certain', { sound: false }],
  ['warning', 'gated-clock', 'possible', { sound: false }],
  ['warning', 'switched-clock', 'possible', { sound: false }],
  ['warning', 'decoded-glitch', 'certain', { dangerous: true }],
  ['warning', 'glitch-into-clock', 'possible', {}],
  ['warning', 'glitch-into-reset', 'possible', {}],
  ['warning', 'glitch-into-latch', 'possible', {}],
  ['warning', 'skewed-transfer', 'possible', {}],
  ['warning', 'setup-hold', null, {}],
  ['warning', 'recovery-removal', null, {}],
  ['warning', 'narrow-pulse', null, {}],
  ['warning', 'read-while-settling', null, {}],
  ['warning', 'bare-crossing', null, {}],
  ['warning', 'logic-before-synchronizer', null, {}],
  ['warning', 'rejoined-crossing', null, {}],
  ['warning', 'short-pulse-crossing', null, {}],
  ['warning', 'reset-crossing', null, {}],
  ['warning', 'decoded-reset', null, {}],
  ['warning', 'unintended-latch', null, {}],
  ['warning', 'mixed-assignment', null, {}],
  ['warning', 'stale-sensitivity', null, {}],
  ['warning', 'text-race', null, {}],
  ['warning', 'unsupported', null, {}],
  ['warning', 'limit-reached', null, {}],
  ['warning', 'unresolved-module', null, { drivesClock: true }],
  ['warning', 'trap-state', null, { reachable: true }],
  ['information', 'decoded-glitch', 'possible', { dangerous: true }],
  ['information', 'structural-hazard', null, {}],
  ['information', 'unknown-start', null, {}],
  ['information', 'opposite-edges', null, {}],
  ['information', 'clock-as-data', null, {}],
  ['information', 'unclear-clock', null, {}],
  ['information', 'raw-input', null, {}],
  ['information', 'reset-release', null, {}],
  ['information', 'reset-in-enable', null, {}],
  ['information', 'gated-clock', null, { sound: true }],
  ['information', 'switched-clock', null, { sound: true }],
  ['information', 'unresolved-module', null, {}],
  ['hint', 'decoded-glitch', 'certain', { dangerous: false }],
  ['hint', 'decoded-glitch', 'possible', { dangerous: false }],
  ['hint', 'trap-state', null, { reachable: false }],
];

describe('weights', () => {
  it.each(table)('%s: %s, certainty %s, %o', (severity, id, certainty, facts) => {
    expect(severityOf(id, certainty, facts)).toBe(severity);
  });
});

// `setup-hold`: data that moves inside the window of the edge that samples it (IEEE 1364-2005 15.2, 15.3; definition 29).
// Told from the runs, and between registers from the longest path against the period and the shortest against the hold
// time, where no run has shown it. Only where the text or the delay set states numbers: a way that is too long by the
// delays of the text alone is too long whatever the rest of it takes.

import type { DelaySet } from '../delays/delay-set';
import { everySet, setOfRegister } from '../delays/own-delays';
import type { RegisterId } from '../netlist/netlist';
import { shortestPaths } from '../predict/shortest-paths';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { settlingReaders } from './read-while-settling';
import { skewedReceivers } from './skewed-transfer';
import { instancePath, registerName } from './subjects';
import { violationFindings } from './timing-violations';

export const setupHold: FindingRule = {
  id: 'setup-hold',
  find(context) {
    const shown = shownRegisters(context);
    const readers = settlingReaders(context);
    return [
      ...violationFindings(withoutReaders(withoutSkewed(context), readers), 'setup-hold', kinds),
      ...longPaths(context)
        .filter(({ to }) => !shown.has(to) && !readers.has(to))
        .map(({ finding }) => finding),
      ...shortPaths(context)
        .filter(({ to }) => !shown.has(to))
        .map(({ finding }) => finding),
    ];
  },
};

const kinds = new Set(['setup', 'hold', 'skew', 'nochange'] as const);

/** A limit of the delay set that data and clock of one edge miss is told as their skew. */
function withoutSkewed(context: HazardContext): HazardContext {
  if (context.violations.every(({ check }) => check.register === null)) return context;
  const skewed = skewedReceivers(context);
  const violations = context.violations.filter(
    ({ check, worst }) =>
      check.register === null || !skewed.has(check.register) || worst.some(({ isOneEdge }) => !isOneEdge),
  );
  return { ...context, violations };
}

/** A chain that comes too late is told as what is read of it. */
function withoutReaders(context: HazardContext, readers: ReadonlySet<RegisterId>): HazardContext {
  const violations = context.violations.filter(
    ({ check }) => check.kind !== 'setup' || check.register === null || !readers.has(check.register),
  );
  return { ...context, violations };
}

/** Registers of which a run has shown it, or that stand where a check of the text has. */
function shownRegisters({ netlist, violations }: HazardContext): ReadonlySet<RegisterId> {
  const shown = new Set<RegisterId>();
  for (const { check } of violations) {
    if (check.register !== null) shown.add(check.register);
    else for (const { id, instance } of netlist.registers) if (instance === check.instance) shown.add(id);
  }
  return shown;
}

interface PairFinding {
  readonly to: RegisterId;
  readonly finding: RawFinding;
}

/** The path that asks for a longer period than its root clock has; one per domain, the worst. */
function longPaths(context: HazardContext): PairFinding[] {
  const { delaySet, drive, leastPeriods } = context.prediction;
  return context.network.domains.flatMap(({ roots }, index) => {
    const clock = roots.length === 1 ? drive.clocks.find(({ root }) => root === roots[0]) : undefined;
    const found = leastPeriods[index]?.atLeast ?? null;
    if (clock === undefined || found === null || found.ps <= clock.period) return [];
    const { from, ps, to } = found;
    // What a sheet asks of the clock itself is the clock's.
    if (from === to && setOfRegister(delaySet, to).period?.max === ps) return [];
    const clockAssumed = clock.source !== 'given' && clock.source !== 'text';
    const margin = Math.floor(clock.period - ps);
    return [
      pair(context, { from, to, check: 'setup', gap: clock.period, margins: [margin, null, null], clockAssumed }),
    ];
  });
}

function shortPaths(context: HazardContext): PairFinding[] {
  const { netlist, network, prediction } = context;
  const { delaySet } = prediction;
  if (netlist.registers.every(({ id }) => (setOfRegister(delaySet, id).hold?.max ?? 0) === 0)) return [];
  return shortestPaths(netlist, network, delaySet).flatMap(({ delay, from, to }) => {
    const { hold } = setOfRegister(delaySet, to);
    if (hold === null || delay.min >= hold.max) return [];
    const margins = [delay.min - hold.max, delay.typ - hold.typ, delay.max - hold.min] as const;
    return [pair(context, { from, to, check: 'hold', gap: delay.min, margins, clockAssumed: false })];
  });
}

interface Pair {
  readonly from: RegisterId;
  readonly to: RegisterId;
  readonly check: 'setup' | 'hold';
  /** ps that there are. */
  readonly gap: number;
  readonly margins: readonly [number, number | null, number | null];
  readonly clockAssumed: boolean;
}

function hasLogic(delaySet: DelaySet): boolean {
  return everySet(delaySet).some(({ logic }) => logic !== null);
}

/** Possible: over a path that may never be taken. */
function pair(
  { netlist, prediction }: HazardContext,
  { check, clockAssumed, from, gap, margins, to }: Pair,
): PairFinding {
  const receiver = netlist.registers[to];
  const names = { from: registerName(netlist, from), to: registerName(netlist, to) };
  const limit = setOfRegister(prediction.delaySet, to)[check] ?? { min: 0, typ: 0, max: 0 };
  const [marginMinPs, marginTypPs, marginMaxPs] = margins;
  const finding: RawFinding = {
    id: 'setup-hold',
    certainty: 'possible',
    signals: [names.to, names.from],
    instance: instancePath(netlist, receiver.instance),
    place: receiver.samplePlace,
    related: [
      { place: netlist.registers[from].samplePlace, why: { reason: 'transfer-launch', args: names } },
      { place: receiver.clockPlace, why: { reason: 'transfer-capture', args: names } },
    ],
    facts: {
      check,
      statedBy: hasLogic(prediction.delaySet) || check === 'hold' ? prediction.delaySet.name : 'text',
      reference: receiver.clockText,
      data: names.to,
      from: names.from,
      gapPs: gap,
      limitMinPs: limit.min,
      limitTypPs: limit.typ,
      limitMaxPs: limit.max,
      marginMinPs,
      marginTypPs,
      marginMaxPs,
      atPs: null,
      times: 0,
      clockAssumed,
      inRun: false,
    },
    weight: {},
  };
  return { to, finding };
}

// What the findings about timing checks share: a violation of the runs as a finding's names, places, certainty and facts.
// Certain: every run shows it, and no clock in it is assumed.

import { createBitNames } from '../netlist/bit-names';
import type { Bit, CheckEvent } from '../netlist/netlist';
import type { Breach } from '../predict/check-windows';
import type { Violation } from '../predict/check-runs';
import type { HazardContext, RawFinding } from './context';
import type { FindingId } from './finding';
import { instancePath, registerName } from './subjects';

/** `kinds`: of the breaches that the finding is about. */
export function violationFindings(
  context: HazardContext,
  id: FindingId,
  kinds: ReadonlySet<Breach['kind']>,
): readonly RawFinding[] {
  return context.violations.flatMap((violation) => {
    const worst = violation.worst.filter(({ breach }) => kinds.has(breach.kind));
    return worst.length === 0 ? [] : [findOne(context, id, { ...violation, worst })];
  });
}

function findOne(context: HazardContext, id: FindingId, violation: Violation): RawFinding {
  const { netlist, prediction } = context;
  const { check, clockAssumed, count, runs, worst } = violation;
  const [{ breach }] = worst;
  const names = namesOf(context, violation);
  const margin = (corner: string) => {
    const found = worst.find((one) => one.corner === corner)?.breach;
    return found === undefined ? null : marginOf(found);
  };
  const limit = check.limits[limitIndex(check.kind, breach.kind)];
  const isOne = runs === 1;
  return {
    id,
    certainty: worst.length === runs && !clockAssumed ? 'certain' : 'possible',
    signals: [...new Set([names.data ?? names.reference, names.reference])],
    instance: instancePath(netlist, check.instance),
    place: check.place,
    related: [],
    facts: {
      check: breach.kind,
      statedBy: check.statedBy === 'text' ? 'text' : prediction.delaySet.name,
      reference: names.reference,
      data: names.data,
      from: null,
      gapPs: breach.gap,
      limitMinPs: limit.min,
      limitTypPs: limit.typ,
      limitMaxPs: limit.max,
      marginMinPs: isOne ? marginOf(breach) : margin('min'),
      marginTypPs: margin('typ'),
      marginMaxPs: isOne ? marginOf(breach) : margin('max'),
      atPs: breach.reference.time,
      times: count,
      clockAssumed,
      inRun: true,
    },
    weight: {},
  };
}

function marginOf({ gap, kind, limit }: Breach): number {
  return kind === 'skew' ? limit - gap : gap - limit;
}

/** Which limit of a check a breach is of. */
function limitIndex(check: string, breach: Breach['kind']): number {
  return (check === 'setuphold' && breach === 'hold') || (check === 'recrem' && breach === 'removal') ? 1 : 0;
}

function namesOf(
  context: HazardContext,
  { check }: Violation,
): { readonly reference: string; readonly data: string | null } {
  const { netlist } = context;
  const path = instancePath(netlist, check.instance);
  const written = ({ text }: CheckEvent) => (path === '' ? text : `${path}.${text}`);
  if (check.register === null)
    return { reference: written(check.reference), data: check.data === null ? null : written(check.data) };
  const clock = bitName(context, netlist.registers[check.register].clock);
  const isAboutControl = check.kind === 'recovery' || check.kind === 'removal';
  if (isAboutControl) return { reference: bitName(context, check.reference.bits[0]), data: clock };
  return { reference: clock, data: check.data === null ? null : registerName(netlist, check.register) };
}

function bitName({ netlist, network }: HazardContext, bit: Bit): string {
  const clock = network.clocks.find((one) => one.bit.node === bit.node && one.bit.bit === bit.bit);
  return clock?.name ?? createBitNames(netlist).nameOf(bit) ?? '';
}

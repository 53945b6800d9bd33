// The complaints of a design: those of every module that is part of it, once each, then one per module that is not
// given. A module's own numbers become numbers in this list.

import type { Complaint } from '../text/complaint';
import type { ModuleTable } from '../syntax/tables';
import { complaintKey, createComplaintLog } from './complaint-log';
import type { RepeatedUnit } from './library';
import type { ElaborationReason } from './reasons';
import type { Template } from './template';
import type { TopChoice } from './top';

export interface GatheredComplaints {
  readonly complaints: readonly Complaint[];
  indexOf(template: Template, complaint: number): number;
}

export interface GatherInput {
  /** Null where there is no top. */
  readonly tree: Template | null;
  readonly choice: TopChoice;
  readonly repeated: readonly { readonly table: ModuleTable; readonly unit: number }[];
  /** Packages and interfaces of a name that an earlier one has. */
  readonly repeatedUnits: readonly RepeatedUnit[];
  /** Names of the modules that are test benches. */
  readonly testBenches: ReadonlySet<string>;
}

export function gatherComplaints({
  tree,
  choice,
  repeated,
  repeatedUnits,
  testBenches,
}: GatherInput): GatheredComplaints {
  const complaints: Complaint[] = [];
  const indices = new Map<string, number>();
  const add = (complaint: Complaint): number => {
    const isLacking = lackingReasons.has(complaint.reason);
    const key = isLacking ? `${complaint.reason} ${JSON.stringify(complaint.args)}` : complaintKey(complaint);
    const known = indices.get(key);
    if (known !== undefined) {
      if (isLacking) complaints[known] = withPlace(complaints[known], complaint);
      return known;
    }
    indices.set(key, complaints.length);
    return complaints.push(complaint) - 1;
  };
  const log = createComplaintLog();
  for (const { table, unit } of repeated) {
    const { name, start, end } = table.name;
    log.add('module-given-twice', { module: name }, { unit, start, end });
  }
  for (const { what, name, place } of repeatedUnits) log.add('unit-given-twice', { what, name }, place);
  for (const complaint of [...choice.complaints, ...log.complaints]) add(complaint);
  const templates = tree === null ? [] : templatesBelow(tree);
  const numbers = new Map(
    templates.map((template) => [template, complaintsOf(template, testBenches).map(add)] as const),
  );
  // What a port takes for an interface and is not given has been said there.
  const interfaces = new Set(
    complaints.flatMap(({ reason, args }) => (reason === 'interface-not-given' ? [args.interface] : [])),
  );
  for (const complaint of missingModules(templates)) if (!interfaces.has(complaint.args.module)) add(complaint);
  return { complaints, indexOf: (template, complaint) => numbers.get(template)?.[complaint] ?? -1 };
}

/** What is not given is said once for each name, with the places of its other uses. */
const lackingReasons: ReadonlySet<string> = new Set<ElaborationReason>(['unknown-package', 'interface-not-given']);

function withPlace(known: Complaint, { args, place, reason }: Complaint): Complaint {
  const places = [known.place, ...known.related.map((other) => other.place)];
  const isKnown = places.some(({ unit, start }) => unit === place.unit && start === place.start);
  return isKnown ? known : { ...known, related: [...known.related, { place, reason, args }] };
}

/** Of a test bench one, however much of it is not read: all of it is made to be run, none to be built (definition 44). */
function complaintsOf(
  { complaints, moduleName, place }: Template,
  testBenches: ReadonlySet<string>,
): readonly Complaint[] {
  if (!testBenches.has(moduleName)) return complaints;
  const one: Complaint = { id: 'unsupported', reason: 'test-bench', args: { name: moduleName }, place, related: [] };
  return complaints.map((complaint) => (complaint.id === 'unsupported' ? one : complaint));
}

/** Each once, parents before what is first met below them. */
function templatesBelow(top: Template): Template[] {
  const seen = new Set<Template>([top]);
  const pending = [top];
  const order: Template[] = [];
  for (let template = pending.pop(); template !== undefined; template = pending.pop()) {
    order.push(template);
    const fresh = template.children.map((child) => child.template).filter((below) => !seen.has(below));
    for (const below of fresh) seen.add(below);
    pending.push(...new Set(fresh.reverse()));
  }
  return order;
}

/** One complaint per name, at its first instance, with the places of the others. */
function missingModules(templates: readonly Template[]): Complaint[] {
  const byName = new Map<string, Complaint['place'][]>();
  for (const { blackBoxes } of templates) {
    for (const { module, place, isGiven } of blackBoxes) {
      if (isGiven) continue;
      const places = byName.get(module) ?? [];
      if (places.every((known) => known.unit !== place.unit || known.start !== place.start)) places.push(place);
      byName.set(module, places);
    }
  }
  return [...byName].map(([module, places]) => {
    places.sort((left, right) => left.unit - right.unit || left.start - right.start);
    const [place, ...others] = places;
    const reason = 'module-not-given';
    const related = others.map((other) => ({ place: other, reason, args: { module } }));
    return { id: 'unresolved-module', reason, args: { module }, place, related };
  });
}

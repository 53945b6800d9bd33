// Many tables become one netlist: the top is chosen, modules below it are read once per set of parameters, instances
// linked. Whatever could not be read is a complaint and unknown in the netlist; the rest is all there.

import type { Limits } from '../budget';
import type { Bench } from '../netlist/bench';
import type { Netlist } from '../netlist/netlist';
import { orderNodes } from '../netlist/order';
import type { Complaint } from '../text/complaint';
import type { Place } from '../text/place';
import { readBench } from './bench';
import { gatherComplaints } from './gather-complaints';
import { withGateLatches } from './gate-latches';
import { type KeptTemplates, stillHolding, surroundingsOf } from './kept-templates';
import { createLibrary, repeatedUnits } from './library';
import { type LinkedResetInEnable, link } from './link';
import { findModules, type ModuleUse, type UnitInput } from './module-uses';
import { createUnitSource } from './source';
import { withSpecified } from './specified-delays';
import { splitKnots } from './split-knots';
import type { Template } from './template';
import { createTemplates, type GivenModule, type Templates } from './templates';
import { chooseTop } from './top';

export interface ElaborationInput {
  /** All units read, in order; a place's `unit` is the index in this list. */
  readonly units: readonly UnitInput[];
  /** Name of the module to start from; null to choose one. */
  readonly top: string | null;
  /** Values for the top's parameters, as constants are written in the text. */
  readonly parameters: Readonly<Record<string, string>>;
  readonly limits: Limits;
  /** The text of a file that a unit's `$readmemh` names, or null. Without it none is at hand. */
  readonly dataFile?: (path: string, unit: number) => string | null;
  /** Of an earlier elaboration: templates that still hold are taken from it. */
  readonly kept?: KeptTemplates;
}

export interface Elaboration {
  /** Null where there is no top. */
  readonly netlist: Netlist | null;
  /** Of the modules that are part of the design, in the order they are met. Holes name them by index. */
  readonly complaints: readonly Complaint[];
  readonly top: string | null;
  /** Modules that could have been the top, in source order. */
  readonly otherTops: readonly string[];
  /** Every module given, in source order. */
  readonly modules: readonly ModuleSummary[];
  /** Registers that an asynchronous control holds because its branch does not assign them (definition 13). */
  readonly resetsInEnable: readonly LinkedResetInEnable[];
  /** What the first test bench that instantiates the top does to it; null where none does. */
  readonly bench: Bench | null;
  /** For a later elaboration of almost the same. */
  readonly kept: KeptTemplates;
}

export interface ModuleSummary {
  readonly name: string;
  readonly unit: number;
  /** Its name in its header. */
  readonly place: Place;
  /** Some other given module's text instantiates it. */
  readonly isInstantiated: boolean;
  /** Without ports, and with initial blocks or delays. */
  readonly isTestBench: boolean;
  /** Part of the design under the chosen top. */
  readonly isUsed: boolean;
}

/** Yields after a fixed amount of work. */
export function* elaborate(input: ElaborationInput): Generator<void, Elaboration> {
  const uses = findModules(input.units);
  const benches = uses.modules.filter(({ isTestBench }) => isTestBench);
  const testBenches = new Set(benches.map(({ table }) => table.name.name));
  const modules = [...uses.modules, ...primitivesOf(input)];
  const given = new Map(modules.map((module) => [module.table.name.name, givenModule(input, module)] as const));
  const surroundings = surroundingsOf(input.units);
  const held = stillHolding(input.kept, surroundings, input.limits);
  const library = held?.library ?? createLibrary(input.units);
  const { dataFile = () => null, limits } = input;
  const templates = createTemplates(given, otherUnits(input), { library, limits, dataFile }, held?.byKey);
  const keep = (): KeptTemplates => ({ library, limits, surroundings, byKey: templates.used() });
  const choice = yield* chooseTop(input, uses.modules, given, templates);
  const gathering = {
    choice,
    repeated: uses.repeated,
    repeatedUnits: repeatedUnits(input.units),
    testBenches,
  };
  if (choice.top === null) {
    const complaints = gatherComplaints({ tree: null, ...gathering }).complaints;
    const modules = uses.modules.map((module) => summary(module, new Set()));
    return {
      netlist: null,
      complaints,
      top: null,
      otherTops: choice.otherTops,
      modules,
      resetsInEnable: [],
      bench: null,
      kept: keep(),
    };
  }
  const { template } = choice.top;
  const gathered = gatherComplaints({ tree: template, ...gathering });
  const linked = yield* link(template, gathered.indexOf);
  const used = new Set(linked.tree.templates.map(({ moduleName }) => moduleName));
  return {
    netlist: yield* withSpecified(yield* untangle(linked.netlist, input.limits), linked.specified),
    complaints: gathered.complaints,
    top: template.moduleName,
    otherTops: choice.otherTops,
    modules: uses.modules.map((module) => summary(module, used)),
    resetsInEnable: linked.resetsInEnable,
    bench: yield* benchOf(template, uses.modules, given, templates),
    kept: keep(),
  };
}

function* benchOf(
  { moduleName, ports, signals }: Template,
  modules: readonly ModuleUse[],
  given: ReadonlyMap<string, GivenModule>,
  templates: Templates,
): Generator<void, Bench | null> {
  for (const { isTestBench, table, uses } of modules) {
    const module = given.get(table.name.name);
    if (!isTestBench || !uses.has(moduleName) || module === undefined) continue;
    const bench = yield* readBench(templates.inputOf(module), { moduleName, ports, signals });
    if (bench !== null) return bench;
  }
  return null;
}

/** Cross-coupled gates become latches, words that only seem to feed themselves become bits. */
function* untangle(netlist: Netlist, limits: Limits): Generator<void, Netlist> {
  yield;
  const { knots } = orderNodes(netlist.nodes);
  yield;
  if (knots.length === 0) return netlist;
  const latched = withGateLatches(netlist, knots);
  const left = latched === netlist ? knots : orderNodes(latched.nodes).knots;
  return yield* splitKnots(latched, left, limits);
}

function givenModule({ units }: ElaborationInput, { table, unit }: Pick<ModuleUse, 'table' | 'unit'>): GivenModule {
  const isPrimitive = units[unit].table.kind === 'other';
  return { table, source: createUnitSource(unit, (other) => units[other].text), isPrimitive };
}

function otherUnits({ units }: ElaborationInput): Map<string, string> {
  return new Map(
    units.flatMap(({ table }) =>
      table.kind === 'other' && table.name !== null && (table.what !== 'primitive' || table.describes === null)
        ? [[table.name.name, table.what]]
        : [],
    ),
  );
}

/** The modules that primitives describe. None of them is a top. */
function primitivesOf({ units }: ElaborationInput): Pick<ModuleUse, 'table' | 'unit'>[] {
  return units.flatMap(({ table }, unit) =>
    table.kind === 'other' && table.what === 'primitive' && table.describes !== null
      ? [{ table: table.describes, unit }]
      : [],
  );
}

function summary({ table, unit, isInstantiated, isTestBench }: ModuleUse, used: ReadonlySet<string>): ModuleSummary {
  const { name, start, end } = table.name;
  return { name, unit, place: { unit, start, end }, isInstantiated, isTestBench, isUsed: used.has(name) };
}

// Reads the text of `foretick.json`: what a person knows and the Verilog does not say. Refuses what it does not
// understand, naming it, since a misspelled key that is passed over would be believed. Names of signals are checked
// later, against the design.

import type { LimitName } from '../budget';
import type { CellFacts } from '../clocks/network';
import type { InputShape } from '../predict/drive';
import { checkShape } from './check-shape';
import { checkInput, inputOf, type WrittenInput } from './project-inputs';
import { cellRoles, projectShape } from './project-shape';
import { refuse } from './refusal';

export interface Project {
  readonly top: string | null;
  readonly delays: string | null;
  readonly start: '0' | '1' | 'x' | null;
  readonly clocks: Readonly<Record<string, ProjectClock>>;
  readonly related: readonly (readonly string[])[];
  readonly resets: Readonly<Record<string, ProjectReset>>;
  readonly inputs: Readonly<Record<string, string | InputShape>>;
  readonly dump: { readonly file: string; readonly scope: string | null } | null;
  readonly clockOperands: Readonly<Record<string, string>>;
  readonly cells: Readonly<Record<string, CellFacts>>;
  readonly static: readonly string[];
  readonly strobes: readonly string[];
  readonly rates: Readonly<Record<string, number>>;
  readonly accepted: readonly Accepted[];
  /** Still as written; `delays/` reads a set when it is asked for by name. */
  readonly delaySets: Readonly<Record<string, unknown>>;
  readonly overrides: Readonly<Record<string, unknown>>;
  readonly limits: Readonly<Partial<Record<LimitName, number>>>;
  readonly libraries: readonly string[];
  readonly includes: readonly string[];
  readonly defines: Readonly<Record<string, string>>;
}

/** ps */
export interface ProjectClock {
  readonly periodPs: number | null;
  readonly highPs: number | null;
  readonly phasePs: number | null;
}

export interface ProjectReset {
  readonly active: 'high' | 'low' | null;
  readonly periods: number | null;
}

/** A finding that a person knows and means: silenced by name, with the reason kept in the report. */
export interface Accepted {
  readonly id: string;
  readonly signal: string;
  readonly reason: string;
}

export const noProject: Project = projectOf({});

/** `file` is what refusals call it. Throws a `Refusal` that names every unknown key and every value of the wrong kind. */
export function parseProject(text: string, file: string): Project {
  const complaints: string[] = [];
  const value = parseJson(text, file);
  complaints.push(...checkShape(projectShape, value, ''));
  if (complaints.length === 0) complaints.push(...checkMeaning(value as Written));
  if (complaints.length > 0) refuse(`${file}: ${complaints.join('; ')}`);
  return projectOf(value as Written);
}

/** The file as its shape allows it. */
type Written = Omit<Partial<Project>, 'start' | 'dump' | 'inputs' | 'cells' | 'clocks' | 'resets'> & {
  readonly start?: string | number;
  readonly dump?: { readonly file: string; readonly scope?: string };
  readonly inputs?: Readonly<Record<string, WrittenInput>>;
  readonly cells?: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly clocks?: Readonly<Record<string, Partial<ProjectClock>>>;
  readonly resets?: Readonly<Record<string, Partial<ProjectReset>>>;
};

function parseJson(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return refuse(`${file}: not valid JSON`);
  }
}

/** What a shape cannot say: relations between two values. */
function checkMeaning(written: Written): readonly string[] {
  const clocks = Object.entries(written.clocks ?? {}).flatMap(([name, { periodPs, highPs }]) =>
    highPs != null && periodPs != null && highPs >= periodPs
      ? [`clocks.${name}.highPs must be less than periodPs`]
      : [],
  );
  const cells = Object.entries(written.cells ?? {}).flatMap(([module, pins]) =>
    Object.entries(pins).flatMap(([pin, role]) =>
      isRole(role) === (pin === 'ratio')
        ? [`cells.${module}.${pin} must be ${pin === 'ratio' ? 'a fraction such as "1/16"' : cellRoles.join(', ')}`]
        : [],
    ),
  );
  const rates = Object.entries(written.rates ?? {}).flatMap(([name, hertz]) =>
    hertz > 0 ? [] : [`rates.${name} must be above 0`],
  );
  const inputs = Object.entries(written.inputs ?? {}).flatMap(([name, input]) => checkInput(input, `inputs.${name}`));
  return [...clocks, ...cells, ...rates, ...inputs];
}

function isRole(text: string): text is (typeof cellRoles)[number] {
  return (cellRoles as readonly string[]).includes(text);
}

function projectOf(written: Written): Project {
  const list = <Item>(items: readonly Item[] | undefined) => items ?? [];
  return {
    top: written.top ?? null,
    delays: written.delays ?? null,
    start: written.start === undefined ? null : (String(written.start) as '0' | '1' | 'x'),
    clocks: mapRecord(written.clocks, clockOf),
    related: list(written.related),
    resets: mapRecord(written.resets, ({ active = null, periods = null }) => ({ active, periods })),
    inputs: mapRecord(written.inputs, inputOf),
    dump: written.dump === undefined ? null : { file: written.dump.file, scope: written.dump.scope ?? null },
    clockOperands: written.clockOperands ?? {},
    cells: mapRecord(written.cells, cellOf),
    static: list(written.static),
    strobes: list(written.strobes),
    rates: written.rates ?? {},
    accepted: list(written.accepted),
    delaySets: written.delaySets ?? {},
    overrides: written.overrides ?? {},
    limits: written.limits ?? {},
    libraries: list(written.libraries),
    includes: list(written.includes),
    defines: written.defines ?? {},
  };
}

function clockOf({ periodPs = null, highPs = null, phasePs = null }: Partial<ProjectClock>): ProjectClock {
  return { periodPs, highPs, phasePs };
}

function cellOf(pins: Readonly<Record<string, string>>): CellFacts {
  const roles = Object.entries(pins).flatMap(([pin, role]) => (isRole(role) ? [[pin, role] as const] : []));
  return { pins: Object.fromEntries(roles), ratio: pins.ratio ?? null };
}

function mapRecord<From, To>(
  entries: Readonly<Record<string, From>> | undefined,
  convert: (entry: From) => To,
): Readonly<Record<string, To>> {
  return Object.fromEntries(Object.entries(entries ?? {}).map(([key, entry]) => [key, convert(entry)]));
}

// Chooses the module to start from: the one asked for, or one that no given module instantiates (a test bench does not
// count: what it tests is the design), test benches last; of several the one with most registers, then the first in the
// source.

import type { Complaint } from '../text/complaint';
import type { Place, UnitOffset } from '../text/place';
import { createComplaintLog } from './complaint-log';
import type { ConstantValue } from './constant-value';
import type { ModuleUse } from './module-uses';
import { readLiteral } from './number-literal';
import type { Template } from './template';
import { type GivenModule, overridableParameters, type Templates } from './templates';

export interface TopChoice {
  readonly top: { readonly template: Template } | null;
  readonly otherTops: readonly string[];
  /** About what was asked for. */
  readonly complaints: readonly Complaint[];
}

export interface TopInput {
  readonly top: string | null;
  readonly parameters: Readonly<Record<string, string>>;
}

export function* chooseTop(
  input: TopInput,
  modules: readonly ModuleUse[],
  given: ReadonlyMap<string, GivenModule>,
  templates: Templates,
): Generator<void, TopChoice> {
  const names = input.top === null ? candidates(modules) : [input.top];
  const others = candidates(modules);
  let best: { template: Template; name: string; complaints: readonly Complaint[] } | null = null;
  for (const name of names) {
    const module = given.get(name);
    if (module === undefined) return { top: null, otherTops: others, complaints: unknownTop(name) };
    const log = createComplaintLog();
    const template = yield* templates.read(module, topParameters(input, module, log));
    const isBetter = best === null || template.totals.registers > best.template.totals.registers;
    if (isBetter) best = { template, name, complaints: log.complaints };
  }
  const chosen = best?.name ?? null;
  return { top: best, otherTops: others.filter((name) => name !== chosen), complaints: best?.complaints ?? [] };
}

function unknownTop(module: string): readonly Complaint[] {
  const log = createComplaintLog();
  log.add('unknown-top', { module }, startOfEverything);
  return log.complaints;
}

const startOfEverything: Place = { unit: 0, start: 0 as UnitOffset, end: 0 as UnitOffset };

/** In source order. Test benches only where there is nothing else. */
function candidates(modules: readonly ModuleUse[]): string[] {
  const free = modules.filter(({ isInstantiated }) => !isInstantiated);
  const designs = modules.filter(({ isPart, isTestBench }) => !isPart && !isTestBench);
  return (designs.length > 0 ? designs : free).map(({ table }) => table.name.name);
}

function topParameters(
  { parameters }: TopInput,
  { table, source }: GivenModule,
  log: ReturnType<typeof createComplaintLog>,
): Map<string, ConstantValue> {
  const known = overridableParameters(table) ?? [];
  const values = new Map<string, ConstantValue>();
  for (const [parameter, text] of Object.entries(parameters)) {
    const place = source.place(table.name);
    if (!known.includes(parameter)) {
      log.add('unknown-parameter', { module: table.name.name, parameter }, place);
      continue;
    }
    const value = readLiteral(text);
    if (value === null) log.add('bad-override', { parameter, text }, place);
    else values.set(parameter, value);
  }
  return values;
}

// Keeps every module that has been read, by name and parameters, and reads those below it first. Modules stand below one
// another without limit in the text; the stack here is a list, so that the machine's own stack never matters.

import { toBinary } from '../netlist/four-state';
import type { ModuleTable } from '../syntax/tables';
import { createComplaintLog } from './complaint-log';
import { type KeptTemplate, type KeptTemplates, readOrKeep } from './kept-templates';
import { type ModuleInput, readModule, type TemplateAnswer, type TemplateRequest } from './read-module';
import type { Override } from './type-form';
import type { UnitSource } from './source';
import type { Template } from './template';

export interface GivenModule {
  readonly table: ModuleTable;
  readonly source: UnitSource;
  readonly isPrimitive: boolean;
}

export interface Templates {
  /** The template of a given module; modules below it are read on the way. */
  read(module: GivenModule, overrides: ReadonlyMap<string, Override>): Generator<void, Template>;
  /** What reading a given module needs, whatever its parameters are. */
  inputOf(module: GivenModule): Omit<ModuleInput, 'log' | keyof TemplateForm>;
  /** Those read so far, for a later elaboration. */
  used(): KeptTemplates['byKey'];
}

/** `otherUnits`: what is given under a name without being a module. `kept`: of an earlier elaboration, as far as they hold. */
export function createTemplates(
  modules: ReadonlyMap<string, GivenModule>,
  otherUnits: ReadonlyMap<string, string>,
  { dataFile, library, limits }: Pick<ModuleInput, 'dataFile' | 'library' | 'limits'>,
  kept: KeptTemplates['byKey'] = new Map(),
): Templates {
  const known = new Map<string, KeptTemplate>();

  function inputOf({ source, table }: GivenModule): ReturnType<Templates['inputOf']> {
    const moduleTable = (name: string) => modules.get(name)?.table ?? null;
    const parameterNames = (name: string) =>
      overridableParameters(moduleTable(name) ?? library.interface(name)?.table ?? null);
    const typeParameters = (name: string) =>
      typeParametersOf(moduleTable(name) ?? library.interface(name)?.table ?? null);
    const isPrimitive = (name: string) => modules.get(name)?.isPrimitive ?? false;
    return { dataFile, isPrimitive, library, limits, moduleTable, parameterNames, source, table, typeParameters };
  }

  function start(module: GivenModule, form: TemplateForm, key: string): Running {
    const input = { ...inputOf(module), log: createComplaintLog(), ...form };
    return { key, reading: readOrKeep(input, kept.get(key), readModule) };
  }

  /** What a request comes to, or the module to read first. */
  function answerOf({ module, ...form }: TemplateRequest, stack: readonly Running[]): TemplateAnswer | Running {
    const given = modules.get(module);
    const what = otherUnits.get(module);
    if (given === undefined) return what === undefined ? { kind: 'not-given' } : { kind: 'not-read', what };
    const key = templateKey(module, form);
    if (stack.some((running) => running.key === key)) return { kind: 'recursive' };
    const template = known.get(key)?.template;
    if (stack.length + (template?.height ?? 1) > limits.depth) return { kind: 'too-deep' };
    return template === undefined ? start(given, form, key) : { kind: 'template', template };
  }

  function* read(module: GivenModule, overrides: ReadonlyMap<string, Override>): Generator<void, Template> {
    const form = { overrides, interfaces: new Map() };
    const key = templateKey(module.table.name.name, form);
    const found = known.get(key);
    if (found !== undefined) return found.template;
    const stack: Running[] = [start(module, form, key)];
    let answer: TemplateAnswer | undefined;
    for (;;) {
      const top = stack[stack.length - 1];
      const step = top.reading.next(answer);
      answer = undefined;
      if (step.done) {
        known.set(top.key, step.value);
        stack.pop();
        const { template } = step.value;
        if (stack.length === 0) return template;
        answer = { kind: 'template', template };
      } else if (step.value === undefined) {
        yield;
      } else {
        const next = answerOf(step.value, stack);
        if ('reading' in next) stack.push(next);
        else answer = next;
      }
    }
  }

  return { inputOf, read, used: () => known };
}

interface Running {
  readonly key: string;
  readonly reading: ReturnType<typeof readOrKeep>;
}

/** What a module's template depends on besides its text. */
type TemplateForm = Pick<ModuleInput, 'overrides' | 'interfaces'>;

function templateKey(module: string, { overrides, interfaces }: TemplateForm): string {
  const ports = [...interfaces].map(([port, { form, modport }]) =>
    [port, form.unit.unit, modport ?? '', ...valuesOf(form.overrides)].join(' '),
  );
  return [module, ...valuesOf(overrides), ...ports.sort()].join('\n');
}

function valuesOf(overrides: ReadonlyMap<string, Override>): readonly string[] {
  const values = [...overrides].map(([name, value]) => {
    if (value.kind === 'real') return `${name}=${value.value}`;
    if (value.kind === 'type') return `${name}=${Object.values(value).join(' ')}`;
    return `${name}=${value.signed ? 's' : 'u'}${toBinary(value.bits)}`;
  });
  return values.sort();
}

function typeParametersOf(table: ModuleTable | null): readonly string[] {
  const items = [...(table?.parameters ?? []), ...(table?.items ?? [])];
  return items.flatMap((item) => (item.kind === 'type-parameter' && !item.local ? [item.name.name] : []));
}

/** Parameters of the header, or of the body where the header has none; local ones cannot be overridden (12.2). */
export function overridableParameters(table: ModuleTable | null): readonly string[] | null {
  if (table === null) return null;
  const items = table.parameters.length > 0 ? table.parameters : table.items;
  return items.flatMap((item) =>
    item.kind === 'parameter' && !item.local
      ? item.declarators.map(({ name }) => name.name)
      : item.kind === 'type-parameter' && !item.local
        ? [item.name.name]
        : [],
  );
}

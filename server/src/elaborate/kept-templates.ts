// Templates of an earlier elaboration that still hold, so that an edit costs what it changes. A template holds while its
// module's table stands under the same number, and everything that reading it asked for is answered as it was: the tables
// of other modules, the templates below it, files of memories. Packages, interfaces and declarations outside every unit
// are looked up in so many ways that all are dropped once one of them differs. Nothing here changes what a template says.

import type { Limits } from '../budget';
import type { ModuleTable, UnitTable } from '../syntax/tables';
import type { Library } from './library';
import type { UnitInput } from './module-uses';
import type { ModuleInput, ModuleReading, TemplateAnswer, TemplateRequest } from './read-module';
import type { Template } from './template';

/** No more than one elaboration used. */
export interface KeptTemplates {
  readonly library: Library;
  readonly limits: Limits;
  readonly surroundings: Surroundings;
  readonly byKey: ReadonlyMap<string, KeptTemplate>;
}

/** A template with all that reading it has asked for, and the answers. */
export interface KeptTemplate {
  readonly table: ModuleTable;
  readonly unit: number;
  readonly template: Template;
  readonly requests: readonly { readonly request: TemplateRequest; readonly answer: TemplateAnswer }[];
  readonly modules: ReadonlyMap<string, ModuleTable | null>;
  readonly files: readonly { readonly path: string; readonly unit: number; readonly text: string | null }[];
}

/** By unit: the file it stands in and, of what is no module, its table. */
type Surroundings = readonly { readonly file: number; readonly table: UnitTable | null }[];

export function surroundingsOf(units: readonly UnitInput[]): Surroundings {
  return units.map(({ file = 0, table }) => ({ file, table: table.kind === 'module' ? null : table }));
}

/** Null where none of them can hold. */
export function stillHolding(
  kept: KeptTemplates | undefined,
  surroundings: Surroundings,
  limits: Limits,
): KeptTemplates | null {
  const isSame =
    kept !== undefined &&
    JSON.stringify(kept.limits) === JSON.stringify(limits) &&
    kept.surroundings.length === surroundings.length &&
    kept.surroundings.every(
      ({ file, table }, unit) => file === surroundings[unit].file && table === surroundings[unit].table,
    );
  return isSame ? kept : null;
}

/** Reads a module and tells what was asked for; or, where all is answered as before, gives the template of before. */
export function* readOrKeep(
  input: ModuleInput,
  before: KeptTemplate | undefined,
  read: (input: ModuleInput) => ModuleReading,
): Generator<TemplateRequest | undefined, KeptTemplate, TemplateAnswer | undefined> {
  if (before !== undefined && holds(before, input)) {
    const isAnswered = yield* askAgain(before);
    if (isAnswered) return before;
  }
  return yield* readListening(input, read);
}

function holds({ files, modules, table, unit }: KeptTemplate, input: ModuleInput): boolean {
  return (
    table === input.table &&
    unit === input.source.unit &&
    [...modules].every(([name, asked]) => input.moduleTable(name) === asked) &&
    files.every(({ path, text, unit: from }) => input.dataFile(path, from) === text)
  );
}

function* askAgain({
  requests,
}: KeptTemplate): Generator<TemplateRequest | undefined, boolean, TemplateAnswer | undefined> {
  for (const { answer, request } of requests) {
    const found = yield request;
    if (found === undefined || !isSame(answer, found)) return false;
  }
  return true;
}

function isSame(left: TemplateAnswer, right: TemplateAnswer): boolean {
  if (left.kind === 'template') return right.kind === 'template' && left.template === right.template;
  if (left.kind === 'not-read') return right.kind === 'not-read' && left.what === right.what;
  return left.kind === right.kind;
}

function* readListening(
  input: ModuleInput,
  read: (input: ModuleInput) => ModuleReading,
): Generator<TemplateRequest | undefined, KeptTemplate, TemplateAnswer | undefined> {
  const requests: KeptTemplate['requests'][number][] = [];
  const modules = new Map<string, ModuleTable | null>();
  const files: KeptTemplate['files'][number][] = [];
  const asked = <Result>(name: string, result: Result): Result => {
    modules.set(name, input.moduleTable(name));
    return result;
  };
  const reading = read({
    ...input,
    moduleTable: (name) => asked(name, input.moduleTable(name)),
    parameterNames: (name) => asked(name, input.parameterNames(name)),
    typeParameters: (name) => asked(name, input.typeParameters(name)),
    isPrimitive: (name) => asked(name, input.isPrimitive(name)),
    dataFile(path, unit) {
      const text = input.dataFile(path, unit);
      files.push({ path, unit, text });
      return text;
    },
  });
  let answer: TemplateAnswer | undefined;
  for (;;) {
    const step = reading.next(answer);
    if (step.done)
      return { table: input.table, unit: input.source.unit, template: step.value, requests, modules, files };
    answer = yield step.value;
    if (step.value !== undefined && answer !== undefined) requests.push({ request: step.value, answer });
  }
}

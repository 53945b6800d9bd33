// Declares functions and tasks: a name in the scope around, and, once the first call asks for them, the variables
// inside (IEEE 1364-2005 10.2.1, 10.4.1). They come before everything else of a scope: its parameters may call them.

import type { Item, SubroutineItem } from '../syntax/tables';
import { contextIn } from './constants';
import { variableShape } from './declared-shape';
import { declareItems } from './declarations';
import type { LocalSignal } from './local-signal';
import { addSignal, type ModuleDraft } from './module-draft';
import { declareBlocks } from './procedural-scopes';
import { createPrivateScope, type Frame, type Scope } from './scope';
import { heightOf } from './statement-height';

export function declareSubroutines(draft: ModuleDraft, scope: Scope, items: readonly Item[]): void {
  for (const item of items) if (item.kind === 'subroutine') declareSubroutine(draft, scope, item);
}

function declareSubroutine(draft: ModuleDraft, scope: Scope, item: SubroutineItem): void {
  const { name } = item;
  const known = scope.names.get(name.name);
  if (known?.kind === 'subroutine' && known.item === item) return;
  if (known !== undefined) {
    draft.log.add('declared-twice', { name: name.name }, draft.source.place(name));
    return;
  }
  const frame = rememberedFrame(draft, scope, item);
  scope.names.set(name.name, { kind: 'subroutine', at: name, item, outer: scope, running: { count: 0 }, frame });
}

export function rememberedFrame(draft: ModuleDraft, outer: Scope, item: SubroutineItem): () => Frame | null {
  let state: 'new' | 'running' | 'done' = 'new';
  let frame: Frame | null = null;
  return () => {
    if (state === 'running') draft.log.add('cyclic-parameter', { name: item.name.name }, draft.source.place(item.name));
    if (state !== 'new') return frame;
    state = 'running';
    frame = frameOf(draft, outer, item);
    state = 'done';
    return frame;
  };
}

/** Null where the result or a port has no width that can be told: it has been said why. */
function frameOf(draft: ModuleDraft, outer: Scope, item: SubroutineItem): Frame | null {
  const scope = createPrivateScope(outer, item.name.name);
  const result = item.result === null ? null : declareResult(draft, scope, item);
  const ports = item.ports.map((port) => ({ signal: declarePort(draft, scope, port), direction: port.direction }));
  toEnd(declareItems(draft, scope, item.declarations));
  toEnd(declareBlocks(draft, scope, item.body));
  const variables = variablesIn(scope);
  if (!item.automatic) for (const variable of variables) draft.kept.add(variable);
  const known = ports.filter((port): port is Frame['ports'][number] => port.signal !== null);
  if (known.length < ports.length || (item.result !== null && result === null)) return null;
  return {
    scope,
    ports: known,
    result,
    variables,
    height: heightOf(item.body),
    running: { count: 0 },
  };
}

function declareResult(draft: ModuleDraft, scope: Scope, { result, name }: SubroutineItem): LocalSignal | null {
  if (result === null) return null;
  const shape = variableShape(contextIn(draft, scope), result.variable ?? 'reg', result.type, name);
  return shape === null
    ? null
    : addSignal(draft, { scope, name: name.name, at: name, shape, port: null, isPrivate: true });
}

function declarePort(draft: ModuleDraft, scope: Scope, port: SubroutineItem['ports'][number]): LocalSignal | null {
  const { declarator, variable, type, direction, at } = port;
  const { name } = declarator;
  if (declarator.dimensions.length > 0) {
    draft.log.add('construct', { what: 'array' }, draft.source.place(declarator.at));
    return null;
  }
  if (scope.names.has(name.name)) {
    draft.log.add('declared-twice', { name: name.name }, draft.source.place(name));
    return null;
  }
  const shape = variableShape(contextIn(draft, scope), variable ?? 'reg', type, at);
  if (shape === null) return null;
  return addSignal(draft, { scope, name: name.name, at: name, shape, port: direction, isPrivate: true });
}

/** Of a scope and the blocks inside it. */
function variablesIn(scope: Scope): LocalSignal[] {
  const own = [...scope.names.values()].flatMap((entity) =>
    entity.kind === 'signal' ? [entity] : entity.kind === 'array' ? (entity.words ?? []) : [],
  );
  return [...own, ...[...scope.blocks.values()].flatMap(variablesIn)];
}

/** What a function declares is little: there is nothing to interrupt. */
function toEnd(steps: Generator<void, void>): void {
  for (let step = steps.next(); step.done !== true; step = steps.next());
}

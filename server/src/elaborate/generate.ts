// Walks a module's items in source order: declares each scope, takes generate constructs apart (IEEE 1364-2005 12.4)
// and lists what is left to do. Unnamed blocks are named by 12.4.3.

import type { DelayTable, Expression, GenerateBlock, Item, Named } from '../syntax/tables';
import { signalsOf } from './assigned-signals';
import { addChildren, parameterValues } from './children';
import { declareItems } from './declarations';
import { declareDefparams } from './defparams';
import { chosenBranch, chosenCase } from './generate-conditions';
import { loopValues } from './generate-loops';
import { drivenNames } from './driven-names';
import { integerValue } from './constant-value';
import { addInterfaces } from './interface-instances';
import type { ModuleDraft } from './module-draft';
import { fixedParameter } from './parameters';
import { declareBlocks } from './procedural-scopes';
import { createScope, lookUp, type Scope } from './scope';
import { declareSubroutines } from './subroutines';

type GenerateItem = Extract<Item, { kind: 'generate-if' | 'generate-for' | 'generate-case' | 'generate-block' }>;

export interface Nesting {
  readonly depth: number;
}

/** Yields now and then: a loop may have many turns. */
export function* expandItems(
  draft: ModuleDraft,
  scope: Scope,
  items: readonly Item[],
  nesting: Nesting,
): Generator<void, void> {
  declareSubroutines(draft, scope, items);
  yield* declareItems(draft, scope, items);
  declareDefparams(draft, scope, items);
  let constructs = 0;
  for (const [index, item] of items.entries()) {
    if (index % 256 === 255) yield;
    switch (item.kind) {
      case 'generate-if':
      case 'generate-for':
      case 'generate-case':
        constructs++;
        yield* expandConstruct(draft, scope, item, constructs, nesting);
        break;
      case 'generate-block':
        yield* expandBlock(draft, scope, item.block, item.block.label?.name ?? null, nesting);
        break;
      case 'net':
        for (const { name, value } of item.declarators) {
          const signal = scope.names.get(name.name);
          if (value === null) continue;
          if (signal?.kind === 'signal')
            draft.work.push({ kind: 'net-value', scope, signal, at: name, value, delay: item.delay });
          else if (signal?.kind === 'record' || signal?.kind === 'array')
            draft.work.push({ kind: 'item', scope, item: assignmentOf(name, value, item.delay) });
        }
        break;
      case 'process':
        yield* declareBlocks(draft, scope, item.body);
        draft.work.push({ kind: 'item', item, scope });
        break;
      case 'assign':
      case 'gate':
      case 'specify':
        draft.work.push({ kind: 'item', item, scope });
        break;
      case 'instances':
        yield* expandInstances(draft, scope, item, nesting);
        break;
    }
  }
}

function* expandInstances(
  draft: ModuleDraft,
  scope: Scope,
  item: Extract<Item, { kind: 'instances' }>,
  { depth }: Nesting,
): Generator<void, void> {
  const unit = draft.library.interface(item.module.name);
  if (unit === null) {
    addChildren(draft, scope, item);
  } else if (depth >= draft.limits.depth) {
    const args = { limit: 'depth', value: draft.limits.depth, name: item.module.name } as const;
    draft.log.add('limit', args, draft.source.place(item.at));
  } else {
    const form = { unit, overrides: parameterValues(draft, scope, item) };
    yield* addInterfaces(draft, scope, item, form, (inner, items) =>
      expandItems(draft, inner, items, { depth: depth + 1 }),
    );
  }
}

/** A net's value in its declaration, where the net is more than one signal. */
function assignmentOf(at: Named, value: Expression, delay: DelayTable | null): Extract<Item, { kind: 'assign' }> {
  return { kind: 'assign', at, delay, target: { kind: 'name', at, name: at.name }, value };
}

function* expandConstruct(
  draft: ModuleDraft,
  scope: Scope,
  item: Exclude<GenerateItem, { kind: 'generate-block' }>,
  number: number,
  { depth }: Nesting,
): Generator<void, void> {
  const deeper = { depth: depth + 1 };
  if (depth >= draft.limits.nesting) {
    const args = { limit: 'nesting', value: draft.limits.nesting, name: 'generate' } as const;
    leaveOut(draft, scope, item, draft.log.add('limit', args, draft.source.place(item.at)));
    return;
  }
  if (item.kind === 'generate-for') {
    yield* expandLoop(draft, scope, item, number, deeper);
    return;
  }
  const chosen = item.kind === 'generate-if' ? chosenBranch(draft, scope, item) : chosenCase(draft, scope, item);
  if (chosen.kind === 'unknown') leaveOut(draft, scope, item, chosen.complaint);
  else if (chosen.block !== null) yield* expandChosen(draft, scope, chosen.block, number, deeper);
}

/**
 * A conditional that stands alone, without begin and end, in another one's branch is part of that one: it makes no
 * scope between, and its blocks are numbered as the outer one's (12.4.2).
 */
function* expandChosen(
  draft: ModuleDraft,
  scope: Scope,
  block: GenerateBlock,
  number: number,
  nesting: Nesting,
): Generator<void, void> {
  const [only] = block.items;
  const isDirect = !block.delimited && block.items.length === 1;
  if (isDirect && (only.kind === 'generate-if' || only.kind === 'generate-case')) {
    yield* expandConstruct(draft, scope, only, number, nesting);
    return;
  }
  yield* expandBlock(draft, scope, block, block.label?.name ?? unnamed(scope, number), nesting);
}

/** `genblk` and the construct's number in its scope, with zeros before it while the name is taken (12.4.3). */
function unnamed(scope: Scope, number: number): string {
  let digits = `${number}`;
  while (scope.names.has(`genblk${digits}`)) digits = `0${digits}`;
  return `genblk${digits}`;
}

/** Without a name (a bare begin and end of the 2001 edition) the items stand in the scope around. */
function* expandBlock(
  draft: ModuleDraft,
  scope: Scope,
  block: GenerateBlock,
  name: string | null,
  nesting: Nesting,
): Generator<void, void> {
  if (name === null) {
    yield* expandItems(draft, scope, block.items, nesting);
    return;
  }
  const inner = createScope(scope, name);
  if (scope.names.has(name)) {
    draft.log.add('declared-twice', { name }, draft.source.place(block.label ?? block.at));
  } else {
    scope.names.set(name, { kind: 'block', at: block.label ?? block.at, scope: inner });
  }
  yield* expandItems(draft, inner, block.items, nesting);
}

function* expandLoop(
  draft: ModuleDraft,
  scope: Scope,
  item: Extract<Item, { kind: 'generate-for' }>,
  number: number,
  nesting: Nesting,
): Generator<void, void> {
  const values = yield* loopValues(draft, scope, item);
  if (values.kind === 'unknown') {
    leaveOut(draft, scope, item, values.complaint);
    return;
  }
  const { label } = item.body;
  const name = label?.name ?? unnamed(scope, number);
  const scopes = new Map<number, Scope>();
  if (scope.names.has(name)) draft.log.add('declared-twice', { name }, draft.source.place(label ?? item.at));
  else scope.names.set(name, { kind: 'blocks', at: label ?? item.at, scopes });
  const variable = item.variable.name;
  for (const value of values.values) {
    const inner = createScope(scope, `${name}[${value}]`);
    inner.names.set(variable, fixedParameter(variable, item.variable, integerValue(value)));
    scopes.set(value, inner);
    yield* expandItems(draft, inner, item.body.items, nesting);
    if (scopes.size % 64 === 0) yield;
  }
}

/** What a construct that was not taken apart would have driven is unknown, not undriven. */
function leaveOut(draft: ModuleDraft, scope: Scope, item: Item, complaint: number): void {
  for (const name of drivenNames([item])) {
    for (const signal of signalsOf(lookUp(scope, name))) {
      draft.work.push({ kind: 'hole', signal, at: item.at, complaint });
    }
  }
}

// Which names a piece of text would drive, read off its tables without knowing what the names mean: for what could not
// be taken apart or followed. Instances and gates count with everything they are connected to.

import { statementsIn } from '../syntax/statements-in';
import type { Expression, GenerateBlock, InstanceTable, Item, Statement } from '../syntax/tables';

/** Base names in source order, once each. */
export function drivenNames(items: readonly Item[]): string[] {
  const names = new Set<string>();
  const blocks = [...items];
  for (let item = blocks.shift(); item !== undefined; item = blocks.shift()) {
    for (const name of namesDrivenBy(item)) names.add(name);
    for (const block of blocksOf(item)) blocks.push(...block.items);
  }
  return [...names];
}

/** The same for one statement and all inside it. */
export function assignedNames(statement: Statement): string[] {
  const names = new Set<string>();
  const stack = [statement];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    if (top.kind === 'assign') for (const name of targetNames(top.target)) names.add(name);
    if (top.kind === 'hole') for (const { name } of top.names) names.add(name);
    if (top.kind === 'call') for (const argument of top.args) for (const name of targetNames(argument)) names.add(name);
    stack.push(...statementsIn(top).reverse());
  }
  return [...names];
}

/** Hierarchical names that a statement and all inside it assign, without their selects. */
export function assignedMembers(statement: Statement): Expression[] {
  const members: Expression[] = [];
  const stack = [statement];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    if (top.kind === 'assign') members.push(...targetMembers(top.target));
    if (top.kind === 'call') members.push(...top.args.flatMap(targetMembers));
    stack.push(...statementsIn(top).reverse());
  }
  return members;
}

function targetMembers(target: Expression): Expression[] {
  if (target.kind === 'member') return [target];
  if (target.kind === 'concat') return target.parts.flatMap(targetMembers);
  return target.kind === 'index' || target.kind === 'range' ? targetMembers(target.base) : [];
}

/** The calls of tasks in a statement and all inside it. */
export function callsIn(statement: Statement): Extract<Statement, { kind: 'call' }>[] {
  const calls: Extract<Statement, { kind: 'call' }>[] = [];
  const stack = [statement];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    if (top.kind === 'call') calls.push(top);
    stack.push(...statementsIn(top).reverse());
  }
  return calls;
}

function namesDrivenBy(item: Item): readonly string[] {
  switch (item.kind) {
    case 'assign':
      return targetNames(item.target);
    case 'process':
      return assignedNames(item.body);
    case 'gate':
    case 'instances':
      return item.instances.flatMap(connectedNames);
    case 'hole':
      return item.names.map(({ name }) => name);
    default:
      return [];
  }
}

function connectedNames({ connections }: InstanceTable): string[] {
  return connections.flatMap(({ name, value, implied }) => {
    if (value !== null) return targetNames(value);
    return implied === 'name' && name !== null ? [name.name] : [];
  });
}

function blocksOf(item: Item): readonly GenerateBlock[] {
  switch (item.kind) {
    case 'generate-if':
      return [item.then, item.else].filter((block) => block !== null);
    case 'generate-for':
      return [item.body];
    case 'generate-case':
      return item.items.map(({ body }) => body);
    case 'generate-block':
      return [item.block];
    default:
      return [];
  }
}

/** Base names of a target: through selects and concatenations. */
function targetNames(target: Expression): string[] {
  switch (target.kind) {
    case 'name':
      return [target.name];
    case 'index':
    case 'range':
    case 'member':
      return targetNames(target.base);
    case 'concat':
      return target.parts.flatMap(targetNames);
    default:
      return [];
  }
}

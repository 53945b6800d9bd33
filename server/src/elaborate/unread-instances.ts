// An instance whose module cannot be had: not given, or too deep. Its connections are kept, so that who drives whom can
// be told from the rest of the circuit.

import type { Expression } from '../syntax/tables';
import { contextIn } from './constants';
import { readNode } from './draft-nodes';
import { isTooDeep } from './expression-depth';
import { interfaceNamed, interfacesIn } from './interface-references';
import { membersOf } from './interface-scope';
import { lower } from './lower';
import type { ChildDraft, ModuleDraft, PinDraft, PortPart } from './module-draft';
import { createNodeReader } from './process-reader';
import { type InterfaceEntity, lookUp } from './scope';
import { targetOf } from './targets';

/** `complaint`: why it is not read; null for a module that is not given, which is asked for once per name. */
export function addBlackBox(draft: ModuleDraft, child: ChildDraft, complaint: number | null): void {
  const pins = child.table.connections.flatMap(({ name, value, implied, at }, index): PinDraft[] => {
    const expression: Expression | null =
      implied === 'name' && name !== null ? { kind: 'name', at: name, name: name.name } : value;
    if (expression === null) return [];
    const pin = name?.name ?? `${index + 1}`;
    const entity = interfaceNamed(contextIn(draft, child.scope), expression);
    if (typeof entity !== 'object' || entity === null) return [pinOf(draft, child, pin, at, expression)];
    return interfacesIn(entity).flatMap((each) => interfacePins(draft, each, pin, at));
  });
  draft.blackBoxes.push({ module: child.item.module.name, path: child.path, at: child.at, pins, complaint });
}

/** Of an interface each signal is a pin: any of them may be driven. */
function interfacePins(draft: ModuleDraft, { scope }: InterfaceEntity, name: string, at: PinDraft['at']): PinDraft[] {
  return membersOf(scope).map(({ path, signal }) => {
    const { width, kind, type } = signal.shape;
    const bits = { low: 0, width };
    const nets = kind === 'net' || type === 'logic' ? [{ signal, ...bits }] : null;
    return { name: `${name}.${path}`, at, node: readNode(draft, signal, bits, at), width, nets };
  });
}

function pinOf(
  draft: ModuleDraft,
  child: ChildDraft,
  name: string,
  at: PinDraft['at'],
  expression: Expression,
): PinDraft {
  const surroundings = {
    context: contextIn(draft, child.scope),
    reader: createNodeReader(draft, draft.otherReads, null),
  };
  const node = lower(surroundings, expression);
  const width = draft.nodes.nodes.width[node];
  return { name, at, node, width, nets: netsOf(draft, child, expression) };
}

/** The net bits an output could drive; null for anything that no output may be connected to. */
function netsOf(draft: ModuleDraft, child: ChildDraft, expression: Expression): PortPart[] | null {
  if (!isNetTarget(draft, child, expression)) return null;
  const surroundings = {
    context: contextIn(draft, child.scope),
    reader: createNodeReader(draft, draft.otherReads, null),
  };
  const { parts, width } = targetOf(surroundings, expression);
  const nets = parts.flatMap((part) => (part.kind === 'slice' ? [part] : []));
  return width === null || nets.length !== parts.length ? null : nets;
}

/** Names of nets, their selects, and concatenations of such. One output may drive a `logic` too (IEEE 1800-2017 6.5). */
function isNetTarget(draft: ModuleDraft, child: ChildDraft, expression: Expression): boolean {
  if (isTooDeep(draft, expression)) return false;
  switch (expression.kind) {
    case 'name': {
      const entity = lookUp(child.scope, expression.name);
      return entity?.kind === 'signal' && (entity.shape.kind === 'net' || entity.shape.type === 'logic');
    }
    case 'index':
    case 'range':
      return isNetTarget(draft, child, expression.base);
    case 'concat':
      return expression.parts.every((part) => isNetTarget(draft, child, part));
    default:
      return false;
  }
}

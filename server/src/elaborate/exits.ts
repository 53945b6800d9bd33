// Blocks and tasks that are left early by `disable` (IEEE 1364-2005 10.3): what follows is a path condition. Each such
// block has a flag; where it may have been set, the rest of every sequence inside the block is followed in a layer of its
// own, under the condition that it has not, and joined again when the sequence ends.

import { type NodeId, operand } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { muxOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { At, Statement } from '../syntax/tables';
import { impossible } from '../text/impossible';
import { certain, chooseCondition, either, isCertain, negated } from './conditions';
import { statementsIn } from '../syntax/statements-in';
import { createLayer, type Layer, type Slice, stretchesOf, writeSlice } from './environment';
import { mergeBranches } from './merge-layers';
import { addSignal, type Path } from './module-draft';
import { leadsThrough, negatedText, pathText } from './path-text';
import { createScope, type Scope } from './scope';
import type { Position, Walk } from './walk';

/** Statements one after another, as far as they have been followed. */
export interface Sequence {
  position: Position;
  /** Layers that a possible leaving has opened, innermost last. */
  readonly opened: { readonly around: Layer; readonly inside: Layer; readonly left: NodeId; readonly at: At }[];
}

export function openSequence(position: Position): Sequence {
  return { position, opened: [] };
}

/** Whether the next statement is reached at all; from here on the sequence stands where nothing has been left. */
export function isReached(walk: Walk, sequence: Sequence, { at }: Pick<Statement, 'at'>): boolean {
  const { position, opened } = sequence;
  if (position.exits.length === 0) return true;
  const { nodes, source } = walk.draft;
  const left = leftAlready(walk, position, at);
  if (isCertain(nodes, left, 0)) return true;
  if (isCertain(nodes, left, 1)) return false;
  // A value that holds where nothing was left is looked up through all the layers before it: that is work, too.
  for (let count = 0; count <= opened.length; count++) walk.step();
  const inside = createLayer(position.layer);
  narrowTo(nodes, position.layer, inside, left);
  for (const { flag } of position.exits) writeFlag(nodes, inside, flag.index, certain(nodes, 0, source.place(at)));
  const leavings = position.exits.flatMap((exit) => exit.leavings);
  const path: Path = {
    outer: position.path,
    at,
    text: () => stayingText(leavings, position.path),
    node: () => negated(nodes, left, source.place(at)),
  };
  opened.push({ around: position.layer, inside, left, at });
  sequence.position = { ...position, layer: inside, path };
  return true;
}

/** Joins the layers that leaving has opened; what follows in the surroundings sees both ways. */
export function closeSequence(walk: Walk, { position, opened }: Sequence): void {
  const { draft, process } = walk;
  const { nodes, source } = draft;
  for (const { around, inside, left, at } of [...opened].reverse()) {
    const place = source.place(at);
    const flags = position.exits.map(({ flag }) => {
      const value = either(nodes, flagValue(around, flag.index, nodes), flagValue(inside, flag.index, nodes), place);
      inside.now.delete(flag.index);
      return { index: flag.index, value };
    });
    const branches = [
      { layer: createLayer(around), at },
      { layer: inside, at },
    ];
    const choice = {
      value: ([gone, stayed]: readonly NodeId[]) => muxOf(nodes, left, assuming(nodes, gone, left, 1), stayed, place),
      condition: ([gone, stayed]: readonly NodeId[]) =>
        chooseCondition(nodes, left, gone === left ? certain(nodes, 1, place) : gone, stayed, place),
    };
    mergeBranches({ draft, process: process.index, into: around, branches, choice, at });
    for (const { index, value } of flags) writeFlag(nodes, around, index, value);
  }
}

/** Where `disable` stands: its block counts as left from here on. False where it is not around the statement. */
export function leaveAt({ draft }: Walk, { exits, layer, path }: Position, target: Scope | null, at: At): boolean {
  const exit = exits.find(({ scope }) => scope === target);
  if (exit === undefined) return false;
  if (!exit.leavings.includes(path)) exit.leavings.push(path);
  writeFlag(draft.nodes, layer, exit.flag.index, certain(draft.nodes, 1, draft.source.place(at)));
  return true;
}

/** The surroundings inside a block or task that a statement in it leaves early by that name. */
export function withExit({ draft }: Walk, position: Position, scope: Scope, name: string, at: At): Position {
  const shape = { kind: 'variable', type: 'reg', width: 1, msb: 0, lsb: 0, scalar: true, signed: false } as const;
  const flag = addSignal(draft, { scope: createScope(scope, null), name, at, shape, port: null, isPrivate: true });
  writeFlag(draft.nodes, position.layer, flag.index, certain(draft.nodes, 0, draft.source.place(at)));
  return { ...position, exits: [...position.exits, { scope, flag, leavings: [] }] };
}

/** The flag has done its work once the block is behind. */
export function forgetExit(outer: Position, { exits }: Position): void {
  for (const { flag } of exits.slice(outer.exits.length)) outer.layer.now.delete(flag.index);
}

const leaving = new WeakMap<Statement, ReadonlySet<string>>();

/** Whether a `disable` of that name stands in a statement. */
export function leavesEarly(statement: Statement, name: string): boolean {
  const names = leaving.get(statement) ?? new Set(disabledIn(statement));
  leaving.set(statement, names);
  return names.has(name);
}

function disabledIn(statement: Statement): string[] {
  const names: string[] = [];
  const stack = [statement];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    if (top.kind === 'disable') names.push(top.label.name);
    stack.push(...statementsIn(top));
  }
  return names;
}

/** Whether any block around has been left, width 1. */
function leftAlready({ draft: { nodes, source } }: Walk, { layer, exits }: Position, at: At): NodeId {
  const place = source.place(at);
  return exits
    .map(({ flag }) => flagValue(layer, flag.index, nodes))
    .reduce((any, flag) => either(nodes, any, flag, place), certain(nodes, 0, place));
}

function flagValue(layer: Layer, flag: number, nodes: NodeBuilder): NodeId {
  const [{ slice }] = stretchesOf(layer, 'now', flag, { low: 0, width: 1 }, nodes);
  return slice?.assigned ?? impossible(`no flag ${flag} of a block`);
}

/** The flag is under which condition it has been assigned: conditions are kept plainer than values. */
function writeFlag(nodes: NodeBuilder, layer: Layer, flag: number, assigned: NodeId): void {
  const value = certain(nodes, 0, nodes.places[nodes.nodes.place[assigned]]);
  writeSlice(layer, 'now', flag, { low: 0, width: 1, value, assigned, holdAt: null }, nodes);
}

/** What the statement that may leave has chosen between, as it is where it has not: nothing needs to choose twice. */
function narrowTo(nodes: NodeBuilder, around: Layer, inside: Layer, left: NodeId): void {
  for (const plane of ['now', 'next'] as const) {
    for (const [signal, slices] of around[plane]) {
      for (const slice of slices) {
        const narrowed = narrowedSlice(nodes, slice, left);
        if (narrowed !== slice) writeSlice(inside, plane, signal, narrowed, nodes);
      }
    }
  }
}

function narrowedSlice(nodes: NodeBuilder, slice: Slice, left: NodeId): Slice {
  const value = assuming(nodes, slice.value, left, 0);
  if (slice.assigned !== left) return value === slice.value ? slice : { ...slice, value };
  return { ...slice, value, assigned: certain(nodes, 0, nodes.places[nodes.nodes.place[left]]) };
}

/** A choice by `condition`, where that is known to be 0 or 1. */
function assuming({ nodes }: NodeBuilder, value: NodeId, condition: NodeId, known: 0 | 1): NodeId {
  const isChosen = nodes.op[value] === Op.mux && operand(nodes, value, 0) === condition;
  return isChosen ? operand(nodes, value, known === 1 ? 1 : 2) : value;
}

/** As written: none of the conditions under which a block around has been left from `around` on. */
function stayingText(leavings: readonly (Path | null)[], around: Path | null): string {
  const paths = leavings.filter((path) => path !== null && path !== around && leadsThrough(path, around));
  const texts = paths.map((path) => (path === null ? '' : pathText(path, around)));
  return negatedText([...new Set(texts)].join(' || '));
}

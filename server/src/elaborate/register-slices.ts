// Cuts the targets of one chain into registers: stretches with the same asynchronous controls and the same written
// delay, maximal and contiguous (definition 11). Enables do not cut.

import type { NodeId } from '../netlist/netlist';
import { concatOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { Layer } from './environment';
import type { FollowedChain } from './clocked-chains';
import { isCertain } from './conditions';
import { type BitRange, holdNode } from './draft-nodes';
import { assignedIn, assignsBit, cutsOf, finalStretches, joined, signalsIn, stretchValue } from './final-slices';
import { type AssignmentDraft, type ControlDraft, type RegisterDraft, signalAt } from './module-draft';
import type { Walk } from './walk';

export function registersOf(walk: Walk, chain: FollowedChain): RegisterDraft[] {
  const layers = [...chain.branches.map(({ layer }) => layer), chain.clocked];
  const writings = writingsOf(walk, chain);
  return signalsIn(layers).flatMap((signal) => {
    const target: Target = { signal, writing: [], clocked: [], hasDelays: false, ...writings.get(signal) };
    const ranges = joined(layers.flatMap((layer) => assignedIn(layer, signal)));
    return ranges.flatMap((range) => registersIn(walk, chain, target, range));
  });
}

/** A signal with the process's assignments to it: all of them, and those of the clocked part. */
interface Target {
  readonly signal: number;
  readonly writing: readonly AssignmentDraft[];
  readonly clocked: readonly AssignmentDraft[];
  readonly hasDelays: boolean;
}

function writingsOf({ process }: Walk, { assignments }: FollowedChain) {
  const bySignal = new Map<number, { writing: AssignmentDraft[]; clocked: AssignmentDraft[]; hasDelays: boolean }>();
  for (const [index, assignment] of process.assignments.entries()) {
    const entry = bySignal.get(assignment.signal) ?? { writing: [], clocked: [], hasDelays: false };
    bySignal.set(assignment.signal, entry);
    entry.writing.push(assignment);
    if (index >= assignments.from && index < assignments.until) entry.clocked.push(assignment);
    if (assignment.delay !== null) entry.hasDelays = true;
  }
  return bySignal;
}

/** The smallest stretch with one story. */
interface Atom extends BitRange {
  readonly data: NodeId;
  readonly asynchronous: readonly ControlDraft[];
  readonly resetsInEnable: readonly Omit<ControlDraft, 'value'>[];
  /** Whether every path of the clocked part assigns it. */
  readonly isAlwaysAssigned: boolean;
  readonly delay: RegisterDraft['delay'];
  readonly key: string;
}

function registersIn(walk: Walk, chain: FollowedChain, target: Target, range: BitRange): RegisterDraft[] {
  const layers = [...chain.branches.map(({ layer }) => layer), chain.clocked];
  const cuts = delayCuts(target, range, cutsOf(walk.draft, layers, target.signal, range));
  const groups: Atom[][] = [];
  for (let index = 0; index + 1 < cuts.length; index++) {
    const atom = atomOf(walk, chain, target, { low: cuts[index], width: cuts[index + 1] - cuts[index] });
    const last = groups.at(-1);
    if (last !== undefined && last[0].key === atom.key) last.push(atom);
    else groups.push([atom]);
  }
  return groups.map((atoms) => registerOf(walk, chain, target, atoms));
}

/** Assignments with a delay of their own cut, too: a register has one clock-to-output delay. */
function delayCuts(
  { writing, hasDelays }: Target,
  { low, width }: BitRange,
  cuts: readonly number[],
): readonly number[] {
  if (!hasDelays) return cuts;
  const more = writing
    .filter(({ delay }) => delay !== null)
    .flatMap((assignment) => [assignment.low, assignment.low + assignment.width])
    .filter((cut) => cut > low && cut < low + width);
  return [...new Set([...cuts, ...more])].sort((left, right) => left - right);
}

function atomOf(walk: Walk, chain: FollowedChain, target: Target, range: BitRange): Atom {
  const { draft, process } = walk;
  const { signal } = target;
  const asynchronous: ControlDraft[] = [];
  const resetsInEnable: Omit<ControlDraft, 'value'>[] = [];
  const valueIn = (layer: Layer) => {
    const [stretch] = finalStretches(draft, layer, signal, range);
    return { stretch, value: stretchValue(draft, process.index, signal, stretch) };
  };
  for (const { branch, layer } of chain.branches) {
    const controls = branch.tests.map(({ edge, level }) => ({ control: edge.node, active: level, at: branch.at }));
    if (!assignsBit(layer, signal, range.low)) {
      resetsInEnable.push(...controls);
      continue;
    }
    const value = heldWhile(walk, signal, range, resetsInEnable, valueIn(layer).value);
    asynchronous.push(...controls.map((control) => ({ ...control, value })));
  }
  const clocked = assignsBit(chain.clocked, signal, range.low) ? valueIn(chain.clocked) : null;
  const assigned = clocked?.stretch.slice?.assigned;
  const delay = delayOf(walk, target, range);
  const controls = asynchronous.map(({ control, active }) => `${control} ${active}`);
  return {
    ...range,
    data: heldWhile(walk, signal, range, resetsInEnable, clocked?.value ?? hold(walk, signal, range)),
    asynchronous,
    resetsInEnable,
    isAlwaysAssigned: assigned !== undefined && isCertain(draft.nodes, assigned, 1),
    delay,
    key: `${controls.join(',')} # ${delay === null ? '' : draft.source.textOf(delay.table.at)}`,
  };
}

function hold({ draft, process }: Walk, signal: number, range: BitRange): NodeId {
  const target = signalAt(draft, signal);
  return holdNode(draft, process.index, target, range, target.at);
}

/** While one of the controls is active, the slice keeps what it has. */
function heldWhile(
  walk: Walk,
  signal: number,
  range: BitRange,
  controls: readonly Omit<ControlDraft, 'value'>[],
  value: NodeId,
): NodeId {
  const { nodes, source } = walk.draft;
  let held = value;
  for (const { control, active, at } of [...controls].reverse()) {
    const kept = hold(walk, signal, range);
    const [whenHigh, whenLow] = active === 'high' ? [kept, held] : [held, kept];
    held = nodes.add(Op.mux, range.width, [control, whenHigh, whenLow], 0, source.place(at));
  }
  return held;
}

/** The delay of the first assignment that writes one; another one on the same bits is said. */
function delayOf({ draft }: Walk, { signal, writing, hasDelays }: Target, range: BitRange): RegisterDraft['delay'] {
  if (!hasDelays) return null;
  const here = writing.filter((assignment) => overlaps(assignment, range));
  const texts = new Set(here.map(({ delay }) => (delay === null ? '' : draft.source.textOf(delay.at))));
  if (texts.size > 1) {
    const { name } = signalAt(draft, signal);
    draft.log.add('mixed-delays', { name }, draft.source.place(here[0].at));
  }
  const first = here.find(({ delay }) => delay !== null);
  return first === undefined || first.delay === null ? null : { table: first.delay, scope: first.scope };
}

function overlaps(left: BitRange, right: BitRange): boolean {
  return left.low < right.low + right.width && right.low < left.low + left.width;
}

function registerOf(walk: Walk, chain: FollowedChain, target: Target, atoms: readonly Atom[]): RegisterDraft {
  const { draft, process } = walk;
  const { nodes, source } = draft;
  const [first] = atoms;
  const { low } = first;
  const range = { low, width: atoms.reduce((sum, atom) => sum + atom.width, 0) };
  const clocked = target.clocked.filter((assignment) => overlaps(assignment, range));
  const sampling = clocked[0] ?? target.writing.find((assignment) => overlaps(assignment, range));
  const sampleAt = sampling?.at ?? signalAt(draft, target.signal).at;
  const join = (parts: readonly NodeId[]) =>
    parts.length === 1 ? parts[0] : concatOf(nodes, [...parts].reverse(), source.place(sampleAt));
  return {
    signal: target.signal,
    ...range,
    clock: chain.clock,
    asynchronous: first.asynchronous.map((control, index) => ({
      ...control,
      value: join(atoms.map((atom) => atom.asynchronous[index].value)),
    })),
    resetsInEnable: first.resetsInEnable,
    data: join(atoms.map((atom) => atom.data)),
    delay: first.delay,
    process: process.index,
    sampleAt,
    enables: enablesOf(atoms, clocked, low),
  };
}

/** Conditions under which parts are assigned, for parts that some path leaves alone. Positions are the register's. */
function enablesOf(
  atoms: readonly Atom[],
  assignments: readonly AssignmentDraft[],
  base: number,
): RegisterDraft['enables'] {
  const conditional = joined(atoms.filter(({ isAlwaysAssigned }) => !isAlwaysAssigned));
  return assignments.flatMap((assignment) => {
    const { path, at } = assignment;
    if (path === null) return [];
    return conditional
      .filter((range) => overlaps(range, assignment))
      .map((range) => {
        const from = Math.max(range.low, assignment.low);
        const until = Math.min(range.low + range.width, assignment.low + assignment.width);
        return { low: from - base, width: until - from, path, at };
      });
  });
}

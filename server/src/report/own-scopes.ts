// Names of single things that have delays of their own, and which set a slice of a signal takes under them: that of the
// design, then of each instance around it from the top down, then of the signal, then of its bits, each replacing what
// it states.

import type { DelaySet } from '../delays/delay-set';
import { overlaySet, type StatedDelays } from '../delays/own-delays';
import { findBits } from '../explain/find-bits';
import type { Instance, InstanceId, Netlist, SignalId } from '../netlist/netlist';

/** Bits of one signal, low counted from its least significant one. */
export interface Slice {
  readonly signal: SignalId;
  readonly low: number;
  readonly width: number;
}

export interface OwnScopes {
  isKnown(name: string): boolean;
  /** Whether a statement means all of a slice, a part of it, or nothing. */
  meaningOf(slice: Slice, name: string): 'whole' | 'part' | 'none';
  /** The same object for the same statements; null where none means all of the slice. */
  setOf(slice: Slice): DelaySet | null;
  /** The statements that make up a set given by `setOf`. */
  namesBehind(set: DelaySet): readonly string[];
}

export function createOwnScopes(
  netlist: Netlist,
  delaySet: DelaySet,
  overrides: ReadonlyMap<string, StatedDelays>,
): OwnScopes {
  const named = [...overrides.keys()].flatMap((name) => whatIsNamed(netlist, name) ?? []).sort(fromWideToNarrow);
  const sets = new Map<string, DelaySet>();
  const namesOfSet = new Map<DelaySet, readonly string[]>();

  /** In the order in which they replace each other. */
  function statementsOf(slice: Slice): readonly Named[] {
    const path = instancesAround(netlist, slice);
    return named.filter((entry) => meaning(path, slice, entry) === 'whole');
  }

  function setOf(slice: Slice): DelaySet | null {
    const statements = statementsOf(slice);
    if (statements.length === 0) return null;
    const key = statements.map(({ name }) => name).join('\n');
    const found = sets.get(key) ?? made(statements);
    sets.set(key, found);
    return found;
  }

  function made(statements: readonly Named[]): DelaySet {
    const names = statements.map(({ name }) => name);
    const set = names.reduce((under, name) => overlaySet(under, overrides.get(name) as StatedDelays), delaySet);
    namesOfSet.set(set, names);
    return set;
  }

  return {
    isKnown: (name) => named.some((entry) => entry.name === name),
    meaningOf(slice, name) {
      const entry = named.find((candidate) => candidate.name === name);
      return entry === undefined ? 'none' : meaning(instancesAround(netlist, slice), slice, entry);
    },
    setOf,
    namesBehind: (set) => namesOfSet.get(set) ?? [],
  };
}

type Named =
  | { readonly kind: 'instance'; readonly name: string; readonly instance: InstanceId; readonly depth: number }
  | ({ readonly kind: 'bits'; readonly name: string } & Slice);

function whatIsNamed(netlist: Netlist, name: string): Named | null {
  const instance = netlist.instances.find(({ path }) => path === name && path !== '');
  if (instance !== undefined) {
    return { kind: 'instance', name, instance: instance.id, depth: ancestorsOf(netlist, instance).length };
  }
  const bits = findBits(netlist, name);
  const signal = bits === null ? undefined : netlist.signals.find(({ node }) => node === bits[0].bit.node);
  if (bits === null || signal === undefined) return null;
  const low = bits.reduce((least, { bit }) => Math.min(least, bit.bit), signal.width);
  return { kind: 'bits', name, signal: signal.id, low, width: bits.length };
}

/** Outer instances, inner ones, whole signals, parts of them: the order in which one replaces the other. */
function fromWideToNarrow(left: Named, right: Named): number {
  if (left.kind === 'instance' && right.kind === 'instance') return left.depth - right.depth;
  if (left.kind === 'bits' && right.kind === 'bits') return right.width - left.width;
  return left.kind === 'instance' ? -1 : 1;
}

function meaning(path: readonly InstanceId[], slice: Slice, named: Named): 'whole' | 'part' | 'none' {
  if (named.kind === 'instance') return path.includes(named.instance) ? 'whole' : 'none';
  if (named.signal !== slice.signal) return 'none';
  const end = Math.min(named.low + named.width, slice.low + slice.width);
  const shared = end - Math.max(named.low, slice.low);
  return shared >= slice.width ? 'whole' : shared > 0 ? 'part' : 'none';
}

/** An input is driven by what stands outside its instance. */
function instancesAround(netlist: Netlist, { signal }: Slice): readonly InstanceId[] {
  const { instance, port } = netlist.signals[signal];
  const around = ancestorsOf(netlist, netlist.instances[instance]);
  return port === 'input' ? around.slice(1) : around;
}

/** The instance itself first. */
function ancestorsOf(netlist: Netlist, from: Instance): readonly InstanceId[] {
  const ancestors: InstanceId[] = [];
  for (let at: Instance | null = from; at !== null; at = at.parent === null ? null : netlist.instances[at.parent])
    ancestors.push(at.id);
  return ancestors;
}

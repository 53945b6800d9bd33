// `overrides` of the project file, met with a design: which registers, latches and operators take delays of their own.
// A bit wins over its signal, a signal over its instance, an instance over the one around it. What the text itself
// delays (`#`) stays as the text says, and bits that the text clocks together take one delay together.

import type { DelaySet, OwnDelays } from '../delays/delay-set';
import type { StatedDelays } from '../delays/own-delays';
import { signalSliceName } from '../netlist/bit-names';
import type { LatchId, Netlist, RegisterId } from '../netlist/netlist';
import { ownOperators } from './own-operators';
import { createOwnScopes, type OwnScopes, type Slice } from './own-scopes';

/** What one statement came to. */
export interface OwnDelaysUse {
  readonly name: string;
  readonly stated: StatedDelays;
  /** Whether the design has an instance or signal of that name. */
  readonly isKnown: boolean;
  readonly registers: number;
  readonly latches: number;
  readonly operators: number;
  /** Stored bits that it names in part only, and such that the text delays itself. */
  readonly parts: readonly string[];
  readonly delayedByText: readonly string[];
}

export interface MetDelays {
  /** The design's set, with what takes other delays. */
  readonly delaySet: DelaySet;
  /** In the order of the project file. */
  readonly uses: readonly OwnDelaysUse[];
}

export function meetOwnDelays(
  netlist: Netlist,
  delaySet: DelaySet,
  overrides: ReadonlyMap<string, StatedDelays>,
): MetDelays {
  if (overrides.size === 0) return { delaySet, uses: [] };
  const scopes = createOwnScopes(netlist, delaySet, overrides);
  const own = {
    registers: new Map<RegisterId, DelaySet>(),
    latches: new Map<LatchId, DelaySet>(),
    nodes: ownOperators(netlist, scopes),
  };
  for (const register of netlist.registers) {
    const found = scopes.setOf(register);
    if (found !== null) own.registers.set(register.id, found);
  }
  for (const latch of netlist.latches) {
    const found = scopes.setOf(latch);
    if (found !== null) own.latches.set(latch.id, found);
  }
  const uses = [...overrides].map(([name, stated]) => useOf({ netlist, scopes, own }, name, stated));
  return { delaySet: { ...delaySet, own }, uses };
}

interface Met {
  readonly netlist: Netlist;
  readonly scopes: OwnScopes;
  readonly own: OwnDelays;
}

function useOf({ netlist, own, scopes }: Met, name: string, stated: StatedDelays): OwnDelaysUse {
  const nameOf = ({ low, signal, width }: Slice) => signalSliceName(netlist.signals[signal], low, width);
  const takes = (set: DelaySet) => scopes.namesBehind(set).includes(name);
  const isMeant = (slice: Slice) => scopes.meaningOf(slice, name) === 'whole';
  const isPart = (slice: Slice) => scopes.meaningOf(slice, name) === 'part';
  return {
    name,
    stated,
    isKnown: scopes.isKnown(name),
    registers: netlist.registers.filter((register) => register.delay < 0 && isMeant(register)).length,
    latches: netlist.latches.filter(isMeant).length,
    operators: stated.logic === null ? 0 : [...own.nodes.values()].filter(takes).length,
    parts: [...netlist.registers, ...netlist.latches].filter(isPart).map(nameOf),
    delayedByText: netlist.registers.filter((register) => register.delay >= 0 && isMeant(register)).map(nameOf),
  };
}

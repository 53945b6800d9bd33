// The network's entry for one register: its clock and where that comes from, its controls, and whether it drives itself.

import { bitKey } from '../netlist/bit-key';
import type { Bit, Latch, Register } from '../netlist/netlist';
import { type Context, sourceOf } from './context';
import type { DomainList } from './domains';
import { rootEdgeOf } from './edge-set';
import type { MemoWalk } from './memo-walk';
import { peelToName } from './peel';
import type { ClockId, ControlUse, LatchClocking, RegisterClocking } from './network';
import { asynchronousUses, soleEnable } from './register-controls';
import { isSelfDriven } from './self-driven';
import { type ClockWalk, edgesOfPin } from './clock-walk';

/** What the walks back gave, and the numbers that the network gives its clocks by. */
export interface Found {
  readonly context: Context;
  readonly walk: MemoWalk<ClockWalk>;
  /** Indices in the network's list of roots, by bit. */
  readonly rootIds: ReadonlyMap<number, number>;
  readonly domains: DomainList;
  readonly clockIds: ReadonlyMap<number, ClockId>;
}

export function clockingOf(found: Found, register: Register, reset: ControlUse | null): RegisterClocking {
  const { context, domains } = found;
  const clock = walkOfPin(found, register.clock);
  const roots = rootIndices(found, clock);
  const root = soleRoot(clock, roots);
  const edge = rootEdgeOf(edgesOfPin(clock, register.edge));
  return {
    register: register.id,
    clock: found.clockIds.get(bitKey(clock.bit)) as ClockId,
    edge: register.edge,
    root: root === null || edge === null ? null : { root, edge },
    roots,
    domain: domains.idOf(clock.domain),
    stage: clock.stage + 1,
    asynchronous: asynchronousUses(context, register),
    synchronous: reset === null ? [] : [reset],
    enable: soleEnable(context, register),
    selfDriven: isSelfDriven(context, register),
  };
}

export function latchClockingOf(found: Found, latch: Latch): LatchClocking {
  const gate = walkOfPin(found, latch.gate);
  return {
    latch: latch.id,
    gate: found.clockIds.get(bitKey(gate.bit)) ?? null,
    active: latch.active,
    root: soleRoot(gate, rootIndices(found, gate)),
    domain: found.domains.idOf(gate.domain),
    asynchronous: asynchronousUses(found.context, latch).map((use) => atItsName(found.context, use)),
    intended: isIntended(latch),
  };
}

/** What sets and clears gates is often written with an inverter in front; it is told by the name behind that. */
function atItsName(context: Context, use: ControlUse): ControlUse {
  const { bit, inverted } = peelToName(context, use.bit);
  return inverted ? { ...use, bit, active: use.active === 'high' ? 'low' : 'high' } : use;
}

/** Definition 40: what a block that is complete elsewhere, or says it is combinational, leaves out is no intention. */
function isIntended({ flavor, othersComplete }: Latch): boolean {
  return flavor !== 'always_comb' && !(flavor === 'always' && othersComplete);
}

function walkOfPin({ context, walk }: Found, pin: Bit): ClockWalk {
  return walk(sourceOf(context, pin));
}

/** Indices in the network's list of roots, ascending. */
export function rootIndices({ rootIds }: Pick<Found, 'rootIds'>, walk: ClockWalk): number[] {
  return walk.roots.flatMap((key) => rootIds.get(key) ?? []).sort((left, right) => left - right);
}

/** Null with several roots, or an operand that nobody could tell on the way. */
export function soleRoot(walk: ClockWalk, indices: readonly number[]): number | null {
  return walk.isOpen || indices.length !== 1 ? null : indices[0];
}

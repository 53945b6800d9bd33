// What a walk back from one bit has found: the clock as a path sees it, before it is listed and numbered.

import type { Bit, EdgeKind } from '../netlist/netlist';
import type { ClockOperands } from './clock-operands';
import { type EdgeSet, noEdge } from './edge-set';
import type { GateStep } from './gate-shape';
import type { Clock, ClockKind } from './network';

export interface ClockWalk {
  readonly bit: Bit;
  readonly kind: ClockKind;
  /** The bits that it takes its edges from, one step back; none for a root. */
  readonly from: readonly Bit[];
  /** Keys of the root bits, ascending. */
  readonly roots: readonly number[];
  /** No operand of some gate on the way could be told to be the clock, or the clock hangs on itself. */
  readonly isOpen: boolean;
  readonly stage: number;
  readonly rises: EdgeSet;
  readonly falls: EdgeSet;
  /** The bit that the domain is named by: a root, or an output that more than one clock reaches. Null where open. */
  readonly domain: Bit | null;
  readonly sources: Clock['sourceRegisters'];
  /** The bit with buffers, inverters and gates of one clock taken off, and how this bit follows it. */
  readonly base: Bit;
  readonly sense: Sense;
  readonly gate: { readonly step: GateStep; readonly operands: ClockOperands } | null;
}

/** Whether a bit follows another one as it is or turned over. */
export type Sense = 'straight' | 'inverted';

export function turnedSense(sense: Sense): Sense {
  return sense === 'straight' ? 'inverted' : 'straight';
}

/** The root edges at which a pin has this edge. */
export function edgesOfPin(clock: ClockWalk, edge: EdgeKind): EdgeSet {
  return edge === 'rising' ? clock.rises : clock.falls;
}

/** A clock that is not told: no operand decided, or waiting for itself. */
export function openWalk(bit: Bit): ClockWalk {
  return {
    bit,
    kind: 'gated',
    from: [],
    roots: [],
    isOpen: true,
    stage: 0,
    rises: noEdge,
    falls: noEdge,
    domain: null,
    sources: [],
    base: bit,
    sense: 'straight',
    gate: null,
  };
}

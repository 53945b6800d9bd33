// Which declarations are those of registers, and which of signals that clock some register: as far as the design under its
// top tells. Where there is no design, nobody is either.

import type { Bit, Netlist } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import type { Place, Span } from '../text/place';
import type { Study } from './study';

export interface NameRoles {
  readonly isRegister: (declared: Span) => boolean;
  readonly isClock: (declared: Span) => boolean;
}

export function* nameRoles(study: Study): Generator<void, NameRoles> {
  const { netlist } = yield* study.elaboration();
  if (netlist === null) return { isRegister: () => false, isClock: () => false };
  const { spanOf } = yield* study.places();
  yield;
  const places = (all: readonly Place[]) => new Set(all.map((place) => keyOf(spanOf(place))));
  const registers = places(netlist.registers.map(({ signal }) => netlist.signals[signal].place));
  const clocks = places(clockSignals(netlist));
  return {
    isRegister: (declared) => registers.has(keyOf(declared)),
    isClock: (declared) => clocks.has(keyOf(declared)),
  };
}

/** Of one bit, and the same as what some register is clocked by but for wiring. */
function clockSignals({ nodes, registers, signals }: Netlist): readonly Place[] {
  const clocking = new Set(registers.map(({ clock }) => bitKey(sourceBit(nodes, clock))));
  const single = signals.filter(({ width }) => width === 1);
  return single
    .filter(({ node }) => clocking.has(bitKey(sourceBit(nodes, { node, bit: 0 }))))
    .map(({ place }) => place);
}

function bitKey({ bit, node }: Bit): string {
  return `${node}.${bit}`;
}

function keyOf({ column, file, line }: Span): string {
  return `${line}:${column} ${file}`;
}

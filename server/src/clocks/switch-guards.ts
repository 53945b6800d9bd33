// The registers where a sound switch takes notice of the other clock's enable: the first flip-flop of each row that ends
// in one of its enables. What reaches them from the other domain is the guard itself.

import type { RegisterId } from '../netlist/netlist';
import type { Context } from './context';
import type { Clock } from './network';
import { chainBehind } from './synchronizers';

export function guardsOfSwitches(context: Context, clocks: readonly Clock[]): ReadonlySet<RegisterId> {
  const sound = clocks.filter(({ gate }) => gate?.kind === 'switch' && gate.verdict === 'sound');
  const enables = sound.flatMap(({ gate }) => gate?.controls ?? []);
  const firsts = enables.flatMap(({ bit }) => chainBehind(context, bit).flops.slice(-1));
  return new Set(firsts.map(({ register }) => register.id));
}

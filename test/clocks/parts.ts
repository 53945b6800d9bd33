// Small parts of which the circuits of these tests are made.

import type { EdgeKind } from '../../server/src/netlist/netlist';
import type { AsynchronousOption, Circuit, Wire } from '../tools/circuit';

/** `always @(edge clock) name <= data;` */
export function flop(c: Circuit, name: string, edge: EdgeKind, clock: Wire, data: Wire): Wire {
  return c.register(name, { width: data.width, edge, clock, data });
}

/** `always @(edge clock) name <= ~name;` */
export function toggle(c: Circuit, name: string, edge: EdgeKind, clock: Wire): Wire {
  return c.register(name, { edge, clock, data: (q) => c.not(q) });
}

/** `always @(edge clock) name <= name + 1;` */
export function counter(c: Circuit, name: string, width: number, edge: EdgeKind, clock: Wire): Wire {
  return c.register(name, { width, edge, clock, data: (q) => c.increment(q) });
}

/** Flip-flops in a row, the last one returned; `name` is numbered from 1. */
export function row(
  c: Circuit,
  name: string,
  length: number,
  clock: Wire,
  data: Wire,
  asynchronous: readonly AsynchronousOption[] = [],
): Wire {
  let last = data;
  for (let index = 1; index <= length; index++) {
    last = c.register(`${name}${index}`, { clock, data: last, asynchronous });
  }
  return last;
}

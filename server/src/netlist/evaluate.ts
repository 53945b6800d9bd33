// What an operator gives for known operand values, by the hardware reading (definition 15 of the project): an unknown
// select merges bit by bit, wildcards count only in case items, unknown bits of arithmetic make the whole result x.
// Sources and memory words have no value here: they are state, kept by whoever runs the netlist.

import { impossible } from '../text/impossible';
import type { Bits } from './four-state';
import type { Netlist } from './netlist';

/** The tables that `resolve` and `select` look their `aux` up in. A netlist is one; so is a node builder. */
export type OperatorTables = Pick<Netlist, 'resolutions' | 'caseWildcards'>;

/** The value of a node of this operator, width and aux (see `operators.ts`), from the values of its operands in order. */
export function evaluate(
  op: number,
  width: number,
  operands: readonly Bits[],
  aux: number,
  tables: OperatorTables,
): Bits {
  return impossible(`not built: ${op} ${width} ${operands.length} ${aux} ${tables.resolutions.length}`);
}

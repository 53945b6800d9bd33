// Combinational loops, decided bit by bit (definition 18 of the project): a carry chain or a vector whose bits feed
// other bits of itself is no loop.

import { impossible } from '../text/impossible';
import type { Bit, Netlist } from './netlist';

export interface CombinationalLoop {
  /** Every bit of the loop, by node, then bit. */
  readonly bits: readonly Bit[];
  /**
   * Whether some value of the selects in the loop closes it: `never` is a loop of the drawing only and stays silent;
   * `unknown` when the selects hang on too many bits to try.
   */
  readonly closes: 'yes' | 'never' | 'unknown';
}

export function combinationalLoops(netlist: Netlist): CombinationalLoop[] {
  return impossible(`not built: ${netlist.top}`);
}

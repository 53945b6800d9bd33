// How long logic takes from register outputs to what a register hears, at most per corner: the longest path through the
// delays of the set and those of the text. For data that is an upper bound (a path may be false); for the control of a
// count that clears itself it is the path taken.

import { createMemoWalk } from '../clocks/memo-walk';
import type { DelaySet, DirectionalDelay } from '../delays/delay-set';
import { setOfNode } from '../delays/own-delays';
import { logicDelayOf } from '../delays/stage-delays';
import { addTriples, latestTriple, zeroDelay, zeroTriple } from '../delays/triple';
import { type Bit, type DelayTriple, type Netlist, type NodeId, operand, type RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { coveredByDelay } from './covered-nodes';

export interface LogicDelays {
  toDataOf(register: RegisterId): DelayTriple;
  /** To the slowest of its asynchronous controls. */
  toControlsOf(register: RegisterId): DelayTriple;
}

/** Worked out when asked, once per node. */
export function createLogicDelays(netlist: Netlist, delaySet: DelaySet): LogicDelays {
  const { nodes, registers, explicitDelays } = netlist;
  const covered = coveredByDelay(netlist);
  const ownDelay = (node: NodeId): DirectionalDelay => {
    if (nodes.op[node] === Op.delay) return explicitDelays[nodes.aux[node]];
    return covered[node] === 1 ? zeroDelay : logicDelayOf(setOfNode(delaySet, node), nodes.op[node]);
  };
  // Whole nodes stand for their bit 0: an operator takes the same time for each of its bits.
  const walk = createMemoWalk<DelayTriple>({
    operandsOf: ({ node }) =>
      Array.from({ length: nodes.arity[node] }, (_, index) => wholeOf(operand(nodes, node, index))),
    valueOf: ({ node }, _, values) => {
      const { rise, fall } = ownDelay(node);
      const before = values.map((value) => value ?? zeroTriple).reduce(latestTriple, zeroTriple);
      return addTriples(before, latestTriple(rise, fall));
    },
  });
  return {
    toDataOf: (register) => walk(wholeOf(registers[register].data)),
    toControlsOf: (register) =>
      registers[register].asynchronous
        .map(({ control }) => walk(wholeOf(control.node)))
        .reduce(latestTriple, zeroTriple),
  };
}

function wholeOf(node: NodeId): Bit {
  return { node, bit: 0 };
}

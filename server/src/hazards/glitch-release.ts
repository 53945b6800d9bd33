// Drivers that can let go of their net: tri-state gates, and choices between a value and z. Their enable is an end of
// its own; what they drive is judged by its value, not by the moments of release.

import { digitAt } from '../netlist/four-state';
import type { Bit, Netlist, NodeId } from '../netlist/netlist';
import { operand } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';

export interface Release {
  readonly enable: Bit;
  readonly data: NodeId;
}

/** Null for what always drives. */
export function releaseOf(netlist: Netlist, node: NodeId): Release | null {
  const { nodes } = netlist;
  if (nodes.op[node] === Op.tristate) {
    return { enable: { node: operand(nodes, node, 1), bit: 0 }, data: operand(nodes, node, 0) };
  }
  if (nodes.op[node] !== Op.mux) return null;
  const enable = { node: operand(nodes, node, 0), bit: 0 };
  const [whenOne, whenZero] = [operand(nodes, node, 1), operand(nodes, node, 2)];
  if (isReleased(netlist, whenZero)) return { enable, data: whenOne };
  return isReleased(netlist, whenOne) ? { enable, data: whenZero } : null;
}

/** The bits whose values a net shows: its driver, or behind drivers that can let go, their data. */
export function shownBits(netlist: Netlist, bit: Bit): readonly Bit[] {
  const { nodes } = netlist;
  const found: Bit[] = [];
  const waiting: Bit[] = [sourceBit(nodes, bit)];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { node, bit: index } = next;
    const release = releaseOf(netlist, node);
    if (release !== null) {
      waiting.push(sourceBit(nodes, { node: release.data, bit: index }));
    } else if (nodes.op[node] === Op.resolve && !isWiredLogic(netlist, node)) {
      for (let driver = nodes.arity[node] - 1; driver >= 0; driver--) {
        waiting.push(sourceBit(nodes, { node: operand(nodes, node, driver), bit: index }));
      }
    } else {
      found.push(next);
    }
  }
  return found;
}

/** Drivers of a wired AND or OR decide its value together. */
function isWiredLogic({ nodes, resolutions }: Netlist, node: NodeId): boolean {
  const { kind } = resolutions[nodes.aux[node]];
  return kind === 'wand' || kind === 'wor';
}

function isReleased(netlist: Netlist, node: NodeId): boolean {
  const { nodes, constants } = netlist;
  for (let bit = 0; bit < nodes.width[node]; bit++) {
    const source = sourceBit(nodes, { node, bit });
    if (nodes.op[source.node] !== Op.constant) return false;
    if (digitAt(constants[nodes.aux[source.node]], source.bit) !== 'z') return false;
  }
  return true;
}

// The plainest reading of definition 34, for tests: every value asked for anew from sources and state, no order, no
// marks, no fast path. Only for circuits without combinational loops, latches and races; controls must be known.

import { hardwareEdge } from '../../server/src/netlist/edges';
import { allX, allZ, type Bits, type Digit, digitAt, equalBits } from '../../server/src/netlist/four-state';
import { evaluate } from '../../server/src/netlist/evaluate';
import { merge } from '../../server/src/netlist/four-state-parts';
import { type Bit, type Netlist, type NodeId, operand, type Register } from '../../server/src/netlist/netlist';
import { Op } from '../../server/src/netlist/operators';

export type SourceChange = readonly [node: NodeId, value: Bits];

export interface Oracle {
  value(node: NodeId): Bits;
  /** One instant: registers with an edge take the data from before it, step by step until nothing moves. */
  instant(changes: readonly SourceChange[]): void;
}

/** At time 0 sources and registers hold; asynchronous controls act. */
export function oracleOf(netlist: Netlist, held: readonly SourceChange[], start: (register: Register) => Bits): Oracle {
  const sources = new Map<NodeId, Bits>(held);
  const state = new Map<NodeId, Bits>(netlist.registers.map((register) => [register.node, start(register)]));

  function value(node: NodeId, memo = new Map<NodeId, Bits>()): Bits {
    const known = memo.get(node);
    if (known !== undefined) return known;
    const { nodes } = netlist;
    const op = nodes.op[node];
    const aux = nodes.aux[node];
    const found = (): Bits => {
      if (op === Op.constant) return netlist.constants[aux];
      if (op === Op.register) return state.get(node) as Bits;
      if (op <= Op.hole) return sources.get(node) ?? unset(netlist, node);
      const operands = Array.from({ length: nodes.arity[node] }, (_, at) => value(operand(nodes, node, at), memo));
      return evaluate(op, nodes.width[node], operands, aux, netlist);
    };
    memo.set(node, found());
    return memo.get(node) as Bits;
  }

  const level = ({ node, bit }: Bit) => digitAt(value(node), bit);
  const pinLevels = () => netlist.registers.map(({ clock }) => level(clock));

  function loaded(register: Register, otherwise: Bits): Bits {
    const acting = register.asynchronous.find(
      ({ control, active }) => level(control) === (active === 'high' ? '1' : '0'),
    );
    return acting === undefined ? otherwise : value(acting.value);
  }

  /** Steps until no register changes. `pins`: levels before; null where nothing counts as an edge. */
  function follow(pins: readonly Digit[] | null, data: ReadonlyMap<NodeId, Bits>): void {
    let old = pins ?? pinLevels();
    for (let moved = true; moved; ) {
      const now = pinLevels();
      const next = netlist.registers.map((register, index) => {
        const held = state.get(register.node) as Bits;
        const edge = pins === null ? null : hardwareEdge(old[index], now[index]);
        const sample = data.get(register.node) as Bits;
        if (edge === register.edge) return loaded(register, sample);
        return loaded(register, edge === `perhaps-${register.edge}` ? merge(held, sample) : held);
      });
      moved = netlist.registers.some(({ node }, index) => !equalBits(next[index], state.get(node) as Bits));
      netlist.registers.forEach(({ node }, index) => {
        state.set(node, next[index]);
      });
      old = now;
    }
  }

  follow(null, new Map());
  return {
    value: (node) => value(node),
    instant(changes) {
      const pins = pinLevels();
      const data = new Map(netlist.registers.map((register) => [register.node, value(register.data)]));
      for (const [node, bits] of changes) sources.set(node, bits);
      follow(pins, data);
    },
  };
}

function unset(netlist: Netlist, node: NodeId): Bits {
  const { op, width, aux } = netlist.nodes;
  const isNet = op[node] === Op.undriven && netlist.signals[aux[node]].kind === 'net';
  return isNet ? allZ(width[node]) : allX(width[node]);
}

// The same netlist with its nodes in another order: what is predicted must not hang on how nodes are numbered.

import type { Bit, Netlist, NodeId } from '../../server/src/netlist/netlist';

/** `order[n]` is the old node that becomes node n. */
export function permuteNodes(netlist: Netlist, order: readonly number[]): Netlist {
  const { nodes } = netlist;
  const renamed = new Uint32Array(nodes.count);
  order.forEach((old, index) => {
    renamed[old] = index;
  });
  const node = (old: NodeId) => renamed[old] as NodeId;
  const bit = (old: Bit): Bit => ({ node: node(old.node), bit: old.bit });
  const pool: number[] = [];
  const first = order.map((old) => {
    const start = pool.length;
    for (let entry = 0; entry < nodes.arity[old]; entry++) pool.push(renamed[nodes.pool[nodes.first[old] + entry]]);
    return start;
  });
  const controls = (list: Netlist['registers'][number]['asynchronous']) =>
    list.map((control) => ({ ...control, control: bit(control.control), value: node(control.value) }));
  return {
    ...netlist,
    nodes: {
      count: nodes.count,
      op: Uint8Array.from(order, (old) => nodes.op[old]),
      width: Uint32Array.from(order, (old) => nodes.width[old]),
      first: Uint32Array.from(first),
      arity: Uint32Array.from(order, (old) => nodes.arity[old]),
      aux: Int32Array.from(order, (old) => nodes.aux[old]),
      place: Int32Array.from(order, (old) => nodes.place[old]),
      pool: Uint32Array.from(pool),
    },
    signals: netlist.signals.map((signal) => ({ ...signal, node: node(signal.node) })),
    pieces: netlist.pieces.map((piece) => ({ ...piece, node: node(piece.node) })),
    registers: netlist.registers.map((register) => ({
      ...register,
      node: node(register.node),
      clock: bit(register.clock),
      data: node(register.data),
      asynchronous: controls(register.asynchronous),
      enables: register.enables.map((enable) => ({ ...enable, condition: node(enable.condition) })),
    })),
    latches: netlist.latches.map((latch) => ({
      ...latch,
      node: node(latch.node),
      gate: bit(latch.gate),
      data: node(latch.data),
      asynchronous: controls(latch.asynchronous),
    })),
    processes: netlist.processes.map((process) => ({
      ...process,
      sensitivity: process.sensitivity.map((item) => ({ ...item, node: node(item.node) })),
    })),
  };
}

// Which operators an explicit delay of the text stands for: it covers the whole expression below it (IEEE 1364-2005
// 6.1.3), so what only feeds explicit delays takes no time of its own from the delay set.

import type { Netlist } from '../netlist/netlist';
import { Op } from '../netlist/operators';

/** 1 for nodes that are read by explicit delays alone, directly or through operators without a name. */
export function coveredByDelay(netlist: Netlist): Uint8Array {
  const { nodes } = netlist;
  const covered = new Uint8Array(nodes.count).fill(1);
  const pending: number[] = [];
  const uncover = (node: number): void => {
    if (covered[node] === 0) return;
    covered[node] = 0;
    pending.push(node);
  };
  const uncoverOperands = (node: number): void => {
    const end = nodes.first[node] + nodes.arity[node];
    for (let entry = nodes.first[node]; entry < end; entry++) uncover(nodes.pool[entry]);
  };
  for (let node = 0; node < nodes.count; node++) if (nodes.op[node] === Op.net) uncoverOperands(node);
  for (const reader of storageReads(netlist)) uncover(reader);
  for (let node = pending.pop(); node !== undefined; node = pending.pop()) {
    if (nodes.op[node] !== Op.delay && nodes.op[node] !== Op.net) uncoverOperands(node);
  }
  return covered;
}

function storageReads(netlist: Netlist): number[] {
  const reads: number[] = [];
  for (const { clock, data } of netlist.registers) reads.push(clock.node, data);
  for (const { gate, data } of netlist.latches) reads.push(gate.node, data);
  for (const { asynchronous } of [...netlist.registers, ...netlist.latches]) {
    for (const { control, value } of asynchronous) reads.push(control.node, value);
  }
  for (const { pins } of netlist.blackBoxes) for (const { node } of pins) reads.push(node);
  return reads;
}

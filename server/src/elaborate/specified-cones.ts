// What stands between the inputs of a module and the outputs that its paths lead to: registers, latches and operators
// whose time is part of a path's. The walk back ends at the module's input ports.

import type { LatchId, Netlist, NodeId, RegisterId } from '../netlist/netlist';
import { isSource, isWiring, Op } from '../netlist/operators';
import type { LinkedPath } from './link-specified';
import type { PathOutput } from './path-outputs';

export interface BehindPaths {
  readonly registers: ReadonlySet<RegisterId>;
  readonly latches: readonly LatchId[];
  readonly operators: readonly NodeId[];
  /** Everything that has operands, wiring too. */
  readonly nodes: readonly NodeId[];
}

export function behindPaths(
  netlist: Netlist,
  paths: readonly LinkedPath[],
  outputs: readonly PathOutput[],
): BehindPaths {
  const { latches, nodes, registers } = netlist;
  const seen = inputNodes(netlist, paths);
  const found = {
    registers: new Set<RegisterId>(),
    latches: new Set<LatchId>(),
    operators: [] as NodeId[],
    nodes: [] as NodeId[],
  };
  const pending: NodeId[] = outputs.filter(({ paths: own }) => own.some(({ length }) => length > 0)).map(driverOf);
  for (const { condition } of paths) if (condition !== null) pending.push(condition.node);
  for (let node = pending.pop(); node !== undefined; node = pending.pop()) {
    if (seen.has(node)) continue;
    seen.add(node);
    const op = nodes.op[node];
    if (op === Op.register) {
      const { asynchronous, clock, data, id } = registers[nodes.aux[node]];
      found.registers.add(id);
      pending.push(clock.node, data, ...asynchronous.flatMap(({ control, value }) => [control.node, value]));
    } else if (op === Op.latch) {
      const { asynchronous, data, gate, id } = latches[nodes.aux[node]];
      found.latches.add(id);
      pending.push(gate.node, data, ...asynchronous.flatMap(({ control, value }) => [control.node, value]));
    } else if (!isSource(op)) {
      found.nodes.push(node);
      if (!isWiring(op) && op !== Op.delay) found.operators.push(node);
      for (let entry = nodes.first[node]; entry < nodes.first[node] + nodes.arity[node]; entry++)
        pending.push(nodes.pool[entry] as NodeId);
    }
  }
  const byNumber = (left: number, right: number) => left - right;
  return {
    registers: found.registers,
    latches: [...found.latches].sort(byNumber),
    operators: found.operators.sort(byNumber),
    nodes: found.nodes.sort(byNumber),
  };
}

function driverOf({ driver }: PathOutput): NodeId {
  return driver;
}

/** Where the walk ends: nets of the inputs of every module with paths. */
export function inputNodes({ pieces, signals }: Netlist, paths: readonly LinkedPath[]): Set<NodeId> {
  const instances = new Set(paths.map(({ instance }) => instance));
  const inputs = signals.filter(({ instance, port }) => instances.has(instance) && port !== null && port !== 'output');
  return new Set(inputs.flatMap(({ pieces: own }) => own.map((piece) => pieces[piece].node)));
}

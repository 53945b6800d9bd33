// What a register's choices rest on: inputs alone, so that each choice can be had; or other registers too, which then are
// to be followed with it where they are of its clock.

import type { ClockNetwork } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import type { Netlist, NodeId, Register, RegisterId } from '../netlist/netlist';
import { isSource, Op } from '../netlist/operators';
import { type Atom, type NextCone, nextConeOf, operandsOf } from './states-cone';

/** Bits of all that are followed together. */
const mostBits = 24;

/** What inputs cannot choose: ports that are clocked, reset or held, and bits at a level, by key. */
export interface Held {
  readonly ports: ReadonlySet<NodeId>;
  readonly fixed: ReadonlyMap<number, 0 | 1>;
}

/** Whether each choice of levels can be had by inputs, but for two comparisons of one thing that rule each other out. */
export function isDecidedByInputs(netlist: Netlist, { atoms }: NextCone, { ports, fixed }: Held): boolean {
  const { op } = netlist.nodes;
  const direct = new Set(atoms.map(({ bit }) => bit.node).filter((node) => op[node] === Op.input));
  const hearing = new Map<NodeId, Atom>();
  return atoms.every((atom) => {
    const { node } = atom.bit;
    if (fixed.has(bitKey(atom.bit))) return true;
    if (op[node] === Op.input) return !ports.has(node);
    if (!plain.has(op[node])) return false;
    return [...sourcesOf(netlist, node)].every((source) => {
      if (op[source] === Op.constant) return true;
      if (op[source] !== Op.input || ports.has(source) || direct.has(source)) return false;
      const other = hearing.get(source);
      hearing.set(source, atom);
      return other === undefined || (atom.equality !== null && other.equality?.subject === atom.equality.subject);
    });
  });
}

/** Conditions that inputs can make true and false. */
const plain: ReadonlySet<number> = new Set([Op.equal, Op.notEqual, Op.reduceAnd, Op.reduceOr, Op.reduceXor]);

/** The register first, then all that it hears, directly or by another; null where one is of another clock, or they are many. */
export function withHeard(netlist: Netlist, network: ClockNetwork, register: Register): readonly RegisterId[] | null {
  const { clock, edge } = network.registers[register.id];
  const found = new Set([register.id]);
  let bits = 0;
  for (const id of found) {
    const own = network.registers[id];
    bits += netlist.registers[id].width;
    if (bits > mostBits || own.clock !== clock || own.edge !== edge) return null;
    const cone = nextConeOf(netlist, [id]);
    if ('reason' in cone) return null;
    for (const { bit } of cone.atoms)
      for (const source of sourcesOf(netlist, bit.node))
        if (netlist.nodes.op[source] === Op.register) found.add(netlist.nodes.aux[source] as RegisterId);
  }
  return [...found];
}

/** Where logic ends: itself for a source. A memory's word is one, whatever its address is made of. */
function sourcesOf(netlist: Netlist, start: NodeId): ReadonlySet<NodeId> {
  const { op } = netlist.nodes;
  const seen = new Set([start]);
  for (const node of seen)
    if (op[node] !== Op.memoryRead) for (const operand of operandsOf(netlist, node)) seen.add(operand);
  return new Set([...seen].filter((node) => isSource(op[node]) || op[node] === Op.memoryRead));
}

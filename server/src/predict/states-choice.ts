// The next state of some registers from one state of theirs, as a choice: the bits of other places that matter there are
// taken as unknown, and where the answer hangs on one it is asked for both ways. What comes out is every next state
// with the conditions that lead to it, and nothing of what does not matter.

import { bitKey } from '../netlist/bit-key';
import { evaluate } from '../netlist/evaluate';
import { labelMatch } from '../netlist/evaluate-choice';
import { type Bits, digitAt, digitBits, equalBits, fromBigInt, toBigInt } from '../netlist/four-state';
import { concat } from '../netlist/four-state-parts';
import type { Bit, Netlist, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { operandsOfBit } from '../netlist/trace';
import { type Atom, type NextCone, operandsOf } from './states-cone';

/** One atom at a level. */
export interface Literal {
  /** Index in the atoms of the cone. */
  readonly atom: number;
  readonly level: 0 | 1;
}

export interface NextState {
  /** Of all registers together, the first one's bits lowest. */
  readonly to: bigint;
  /** All of them hold; empty: always. */
  readonly when: readonly Literal[];
}

export interface Chooser {
  /** Null where a bit is unknown whatever is chosen, or where too much hangs on other places. */
  nextOf(state: bigint): readonly NextState[] | null;
  /** Nodes evaluated so far. */
  readonly work: () => number;
}

/** Ways out of one state; with more of them it takes data rather than decides. */
const mostWays = 64;

/** Atoms of which the answer may hang on at once: more are data on their way. */
const mostOpen = 12;

/** `fixed`: levels of atoms that are never chosen otherwise, by key of the bit. */
export function createChooser(netlist: Netlist, cone: NextCone, fixed: ReadonlyMap<number, 0 | 1>): Chooser {
  const { nodes } = netlist;
  const values = new Map<NodeId, Bits>();
  const levels = new Int8Array(cone.atoms.length);
  const registers = cone.registers.map((id) => netlist.registers[id]);
  const rivals = rivalsOf(netlist, cone.atoms);
  let work = 0;

  function nextOf(state: bigint): readonly NextState[] | null {
    enter(state);
    const found: NextState[] = [];
    const waiting: (readonly Literal[])[] = [[]];
    for (let when = waiting.pop(); when !== undefined; when = waiting.pop()) {
      assume(when);
      evaluateAll();
      const to = stateAfter();
      if (to !== null) found.push({ to, when: withoutImplied(when) });
      else {
        const open = openAtoms();
        if (open.length === 0 || open.length > mostOpen || found.length + waiting.length >= mostWays) return null;
        const [atom] = open;
        waiting.push([...when, { atom, level: 0 }], [...when, { atom, level: 1 }]);
      }
    }
    return found;
  }

  function enter(state: bigint): void {
    let rest = state;
    for (const { node, width } of registers) {
      values.set(node, fromBigInt(width, BigInt.asUintN(width, rest)));
      rest >>= BigInt(width);
    }
  }

  function assume(when: readonly Literal[]): void {
    for (const [index, { bit }] of cone.atoms.entries()) levels[index] = fixed.get(bitKey(bit)) ?? -1;
    for (const { atom, level } of when) {
      levels[atom] = level;
      if (level === 1) for (const rival of rivals[atom]) levels[rival] = 0;
    }
    for (const leaf of cone.leaves) values.set(leaf, leafValue(leaf));
  }

  /** That a comparison holds says already that its rivals do not. */
  function withoutImplied(when: readonly Literal[]): readonly Literal[] {
    const ruledOut = new Set(when.flatMap(({ atom, level }) => (level === 1 ? rivals[atom] : [])));
    return when.filter(({ atom }) => !ruledOut.has(atom));
  }

  function leafValue(node: NodeId): Bits {
    const parts = Array.from({ length: nodes.width[node] }, (_, bit) => {
      const level = levels[cone.atomOf.get(bitKey({ node, bit })) ?? 0];
      return digitBits(level === 1 ? '1' : level === 0 ? '0' : 'x');
    });
    return parts.length === 1 ? parts[0] : concat(parts.reverse());
  }

  function evaluateAll(): void {
    work += cone.order.length;
    for (const node of cone.order) values.set(node, answerOf(node));
  }

  function answerOf(node: NodeId): Bits {
    if (nodes.op[node] === Op.constant) return netlist.constants[nodes.aux[node]];
    const operands = operandsOf(netlist, node).map(known);
    return evaluate(nodes.op[node], nodes.width[node], operands, nodes.aux[node], netlist);
  }

  function known(node: NodeId): Bits {
    return values.get(node) as Bits;
  }

  function stateAfter(): bigint | null {
    let state = 0n;
    let offset = 0;
    for (const { data, width } of registers) {
      const value = toBigInt(known(data));
      if (value === null) return null;
      state |= value << BigInt(offset);
      offset += width;
    }
    return state;
  }

  /** The atoms that an unknown bit of the answer hangs on, choices before what they choose from. */
  function openAtoms(): readonly number[] {
    const found = new Set<number>();
    const seen = new Set<number>();
    const waiting: Bit[] = registers.flatMap(({ data, width }) =>
      Array.from({ length: width }, (_, bit) => ({ node: data, bit })),
    );
    for (let bit = waiting.pop(); bit !== undefined; bit = waiting.pop()) {
      const key = bitKey(bit);
      if (seen.has(key) || isKnown(bit)) continue;
      seen.add(key);
      const atom = cone.atomOf.get(key);
      if (atom !== undefined) found.add(atom);
      else waiting.push(...[...openOperands(bit)].reverse());
    }
    return [...found];
  }

  function isKnown({ node, bit }: Bit): boolean {
    const digit = digitAt(known(node), bit);
    return digit === '0' || digit === '1';
  }

  /** A choice that is not made yet comes before what it chooses from. */
  function openOperands(bit: Bit): readonly Bit[] {
    const operands = operandsOf(netlist, bit.node);
    if (nodes.op[bit.node] === Op.mux) {
      const select = { node: operands[0], bit: 0 };
      if (!isKnown(select)) return [select];
      return [{ node: digitAt(known(operands[0]), 0) === '1' ? operands[1] : operands[2], bit: bit.bit }];
    }
    if (nodes.op[bit.node] === Op.select) return openArms(bit, operands);
    return operandsOfBit(nodes, bit);
  }

  function openArms({ node, bit }: Bit, operands: readonly NodeId[]): readonly Bit[] {
    const selector = known(operands[0]);
    const wildcards = nodes.aux[node] < 0 ? null : netlist.caseWildcards[nodes.aux[node]];
    for (let index = 1; index + 1 < operands.length; index += 2) {
      const match = labelMatch(selector, known(operands[index]), wildcards?.[(index - 1) / 2] ?? null);
      if (match === 'yes') return [{ node: operands[index + 1], bit }];
      if (match === 'perhaps') return [...bitsOf(operands[0]), ...bitsOf(operands[index])];
    }
    return [{ node: operands[operands.length - 1], bit }];
  }

  function bitsOf(node: NodeId): Bit[] {
    return Array.from({ length: nodes.width[node] }, (_, bit) => ({ node, bit }));
  }

  return { nextOf, work: () => work };
}

/** By atom: those that cannot hold while it does, being comparisons of the same thing with another constant. */
function rivalsOf(netlist: Netlist, atoms: readonly Atom[]): readonly (readonly number[])[] {
  const digits = (node: NodeId): Bits | null =>
    netlist.nodes.op[node] === Op.constant ? netlist.constants[netlist.nodes.aux[node]] : null;
  return atoms.map(({ equality }, own) => {
    const constant = equality === null ? null : digits(equality.constant);
    if (equality === null || constant === null) return [];
    return atoms.flatMap(({ equality: other }, index) => {
      if (index === own || other === null || other.subject !== equality.subject) return [];
      const rival = digits(other.constant);
      return rival === null || equalBits(rival, constant) ? [] : [index];
    });
  });
}

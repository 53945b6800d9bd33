// The bits a signal is made of, and how they are read as one number.

import { signalBitName } from '../netlist/bit-names';
import type { RegisterId } from '../netlist/netlist';
import { supportOf, type Workshop } from './glitch-parts';
import type { Scene } from './glitch-scene';

/** What the signal hears once cells are looked through. */
export function sourcesOf({ workshop, part, observed }: Scene): number[] {
  const found = new Set<number>();
  const waiting = [...observed];
  for (let variable = waiting.pop(); variable !== undefined; variable = waiting.pop()) {
    if (found.has(variable)) continue;
    found.add(variable);
    const own = part(variable);
    if (own.kind === 'cell') waiting.push(...supportOf(workshop, own.follows));
  }
  return [...found].sort((left, right) => left - right);
}

export interface RegisterBit {
  readonly variable: number;
  readonly register: RegisterId;
  /** Within the register, 0 = least significant. */
  readonly bit: number;
  readonly name: string;
}

/** The register bits among a scene's sources, most significant first: a chain's last stage, a vector's highest bit. */
export function registerBitsOf(scene: Scene): readonly RegisterBit[] {
  const { workshop, part } = scene;
  const bits = sourcesOf(scene).filter((variable) => part(variable).kind === 'register');
  const ranks = new Map(bits.map((variable) => [variable, rankOf(workshop, variable)]));
  const compare = (left: number, right: number): number => {
    const [one, other] = [ranks.get(left) ?? noRank, ranks.get(right) ?? noRank];
    return one.group - other.group || other.position - one.position || other.bit - one.bit;
  };
  return bits.sort(compare).map((variable) => registerBit(workshop, variable));
}

interface Rank {
  readonly group: number;
  /** Stage within a chain; 0 outside one. */
  readonly position: number;
  readonly bit: number;
}

const noRank: Rank = { group: 0, position: 0, bit: 0 };

/** Chains first, then vectors and single registers by their signals. */
function rankOf({ netlist, network, logic }: Workshop, variable: number): Rank {
  const { bit } = logic.variables[variable];
  const register = netlist.registers[netlist.nodes.aux[bit.node]];
  const chain = network.chains.findIndex(({ registers }) => registers.includes(register.id));
  if (chain < 0) return { group: network.chains.length + register.signal, position: 0, bit: register.low + bit.bit };
  return { group: chain, position: network.chains[chain].registers.indexOf(register.id), bit: bit.bit };
}

function registerBit({ netlist, logic }: Workshop, variable: number): RegisterBit {
  const { bit } = logic.variables[variable];
  const register = netlist.registers[netlist.nodes.aux[bit.node]];
  const name = signalBitName(netlist.signals[register.signal], register.low + bit.bit);
  return { variable, register: register.id, bit: bit.bit, name };
}

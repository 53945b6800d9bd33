// What may be chosen anew before each edge: ports that are not pinned, outputs of black boxes, and registers of other
// roots, whose changes have no fixed relation to this one (definitions 27 and 31 of the project). Clocks and resets are
// as the drive has them after release; what a person gave or stated static stays.

import { bitKey } from '../netlist/bit-key';
import type { BitNames } from '../netlist/bit-names';
import type { Bit } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import type { Prediction } from '../predict/prediction';
import { setSourceBit } from '../predict/settled';
import type { SettledMachine } from '../predict/settled-machine';
import type { Extent } from './glitch-groups';
import type { Workshop } from './glitch-parts';

export interface Choice {
  readonly variable: number;
  readonly bit: Bit;
  readonly signal: string;
  /** Level while nothing is chosen otherwise. */
  readonly usual: 0 | 1;
  /** A register or latch of another root, or one of this root that is not followed, or read from a memory. */
  readonly kind: 'input' | 'foreign' | 'cut';
  /** Of a register or latch: the root that it follows, by name; null where it has none of its own. */
  readonly clock: string | null;
  /** Digits of a setting's number whose parity turns it. */
  readonly mask: number;
}

export interface FreeInputs {
  readonly choices: readonly Choice[];
  /** How many settings are tried, numbered from 0, where everything is as usual. */
  readonly settings: number;
  /** False where there are more bits than can be set in every way. */
  readonly complete: boolean;
  /** How many bits are registers or latches of other roots; and of this one. */
  readonly foreign: number;
  readonly cut: number;
}

/**
 * Bits set in every way. With more, each further bit is the parity of some of these: any two still take all four values.
 * Bits read from memories are set together: a memory's output has many, and what it holds is not followed.
 */
const mostFree = 10;

export interface InputsContext {
  readonly workshop: Workshop;
  readonly prediction: Prediction;
  readonly names: BitNames;
  /** Names stated never to change. */
  readonly static: readonly string[];
  /** Register bits that never leave their start value. */
  readonly isFixed: (variable: number) => boolean;
}

/** `levels`: at the start, by variable. */
export function freeInputs(context: InputsContext, { held, cut }: Extent, levels: Uint8Array): FreeInputs {
  const { workshop, names } = context;
  const pinned = pinnedBits(context);
  const choices: Omit<Choice, 'mask'>[] = [];
  for (const variable of held) {
    const { bit, kind } = workshop.logic.variables[variable];
    if (pinned.has(bitKey(bit)) || context.isFixed(variable)) continue;
    const signal = choiceName(workshop, names, variable);
    if (context.static.some((name) => name === signal || signal.startsWith(`${name}[`))) continue;
    const isStored = kind === 'register' || kind === 'latch';
    choices.push({
      variable,
      bit,
      signal,
      usual: levels[variable] === 1 ? 1 : 0,
      kind: kind === 'memory' || cut.includes(variable) ? 'cut' : isStored ? 'foreign' : 'input',
      clock: isStored ? rootName(workshop, variable) : null,
    });
  }
  const isWord = ({ variable }: Pick<Choice, 'variable'>) => workshop.logic.variables[variable].kind === 'memory';
  const words = choices.filter(isWord).length;
  const others = choices.length - words;
  const count = others + Math.min(words, 1);
  let next = 0;
  return {
    choices: choices.map((choice) => ({ ...choice, mask: maskOf(isWord(choice) ? others : next++) })),
    settings: 2 ** Math.min(count, mostFree),
    complete: count <= mostFree && words <= 1,
    foreign: choices.filter(({ kind }) => kind === 'foreign').length,
    cut: choices.filter(({ kind }) => kind === 'cut').length,
  };
}

/** What a memory gives out has the memory's name where it has none of its own. */
export function choiceName({ netlist, logic }: Workshop, names: BitNames, variable: number): string {
  const { bit, kind } = logic.variables[variable];
  const name = names.nameOf(bit);
  if (name !== null) return name;
  return kind === 'memory' ? netlist.memories[netlist.nodes.aux[bit.node]].name : '';
}

/** The level of one choice in a setting. */
export function levelIn({ choices }: FreeInputs, setting: number, choice: number): 0 | 1 {
  const { mask, usual } = choices[choice];
  return (usual ^ parity(setting & mask)) as 0 | 1;
}

export function choose(machine: SettledMachine, inputs: FreeInputs, setting: number): void {
  inputs.choices.forEach(({ bit }, choice) => {
    setSourceBit(machine, bit, levelIn(inputs, setting, choice));
  });
}

/** A mask of its own for each choice: one bit each, then sums of several. */
function maskOf(choice: number): number {
  if (choice < mostFree) return 1 << choice;
  const sums = 2 ** mostFree - 1;
  return sums - ((choice - mostFree) % sums);
}

function parity(number: number): number {
  let rest = number;
  for (let shift = 16; shift > 0; shift >>= 1) rest ^= rest >>> shift;
  return rest & 1;
}

export function rootName({ netlist, network, logic }: Workshop, variable: number): string | null {
  const { bit, kind } = logic.variables[variable];
  const aux = netlist.nodes.aux[bit.node];
  const root = kind === 'latch' ? network.latches[aux].root : (network.registers[aux].root?.root ?? null);
  return root === null ? null : network.roots[root].name;
}

function pinnedBits({ workshop, prediction }: InputsContext): ReadonlySet<number> {
  const { netlist, network } = workshop;
  const { drive } = prediction;
  const pinned = new Set<number>();
  for (const { bit } of [...network.roots, ...drive.clocks, ...drive.resets]) {
    pinned.add(bitKey(sourceBit(netlist.nodes, bit)));
  }
  for (const { moves, signal, source } of drive.inputs) {
    if (source !== 'given' || moves !== null) continue;
    const { node, width } = netlist.signals[signal];
    for (let bit = 0; bit < width; bit++) pinned.add(bitKey(sourceBit(netlist.nodes, { node, bit })));
  }
  return pinned;
}

// Which numbers a register can read of a chain that is still on its way from one to the next, and what it would make of
// them. The bits of a chain change one after the other, so that a number passed is the old one with the first few of its
// changes done: readable are those between what is sure to have changed by then and what may have. A number that gives
// the register the same next value as the right one is no harm.

import type { Chain } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import { digitAt } from '../netlist/four-state';
import type { DelayTriple, Netlist, RegisterId } from '../netlist/netlist';
import type { NodeOrder } from '../netlist/order';
import { coneOf, type SettingCone, settleCone } from '../netlist/setting-cone';
import type { Count, CountStep, Prediction } from './prediction';

export interface WrongReadings {
  /** The first few, in the order of the sequence. */
  readonly shown: readonly { readonly read: string; readonly instead: string }[];
  /** Of the steps that were looked at, which are as many as it takes to find 256. */
  readonly total: number;
  /** At one step at least whatever the delays are. */
  readonly isSure: boolean;
}

const mostShown = 4;
const mostFound = 256;

export interface ReadQuestion {
  readonly to: RegisterId;
  readonly chain: Chain;
  /** Members that it hears. */
  readonly heard: readonly RegisterId[];
  readonly count: Count | null;
  /** Arrival of the first stage's clock. */
  readonly first: DelayTriple;
  /** ps, as in `SettlingRead`. */
  readonly available: DelayTriple;
  readonly path: number;
  readonly setup: number;
  readonly worst: { readonly from: bigint; readonly to: bigint } | null;
}

export interface ReadWorld {
  readonly netlist: Netlist;
  readonly prediction: Prediction;
  readonly order: NodeOrder;
}

/** Null where the sequence is not known, or not made of one change after the other. */
export function wrongReadings(world: ReadWorld, question: ReadQuestion): WrongReadings | null {
  const { chain, count, worst } = question;
  const { registers } = world.netlist;
  const isPlain = chain.registers.every((id) => registers[id].width === 1 && registers[id].asynchronous.length === 0);
  if (count === null || count.period === null || !isPlain) return null;
  const answerOf = createAnswers(world, question);
  const found = new Map<string, WrongReadings['shown'][number]>();
  let isSure = false;
  for (const step of stepsOf(count, worst)) {
    if (found.size >= mostFound) break;
    const readable = readableAt(world, question, step);
    const verdicts = readable.map((value) => (value === step.to ? 'same' : answerOf(value, step.to)));
    for (const [index, verdict] of verdicts.entries())
      if (verdict !== 'same') found.set(`${readable[index]} ${step.to}`, { read: readable[index], instead: step.to });
    isSure ||= verdicts.length > 0 && verdicts.every((verdict) => verdict === 'other');
  }
  return { shown: [...found.values()].slice(0, mostShown), total: found.size, isSure };
}

/** Those that are listed, and the slowest, which may stand behind the end of the list. */
function stepsOf({ steps }: Count, worst: ReadQuestion['worst']): readonly Pick<CountStep, 'from' | 'to'>[] {
  if (worst === null) return steps;
  const slowest = { from: String(worst.from), to: String(worst.to) };
  return steps.some(({ from, to }) => from === slowest.from && to === slowest.to) ? steps : [...steps, slowest];
}

/** Numbers that may stand there when the register samples, in the order in which they are passed. */
function readableAt(
  { prediction }: ReadWorld,
  { available, chain, first, path, setup }: ReadQuestion,
  step: Pick<CountStep, 'from' | 'to'>,
): string[] {
  if (!/^\d+$/.test(step.from) || !/^\d+$/.test(step.to)) return [];
  const [from, to] = [BigInt(step.from), BigInt(step.to)];
  const changes = chain.registers.flatMap((register, bit) => {
    const after = (to >> BigInt(bit)) & 1n;
    if (((from >> BigInt(bit)) & 1n) === after) return [];
    const { fall, rise } = prediction.registers[register].settles ?? { fall: null, rise: null };
    const time = after === 1n ? rise : fall;
    return time === null ? [] : [{ bit, min: time.min - first.min, max: time.max - first.max }];
  });
  // Equal times are a race even without a setup time (definition 28).
  const latest = available.min - path - setup - (setup > 0 ? 0 : 1);
  const sure = changes.filter(({ max }) => max <= latest).length;
  const possible = changes.filter(({ min }) => min <= available.max).length;
  return Array.from({ length: Math.max(0, possible - sure) + 1 }, (_, more) => {
    const done = changes.slice(0, Math.min(sure + more, changes.length));
    return String(done.reduce((number, { bit }) => number ^ (1n << BigInt(bit)), from));
  });
}

/** What the register makes of a wrong number against the right one; `perhaps` where other signals decide. */
function createAnswers(
  { netlist, order }: ReadWorld,
  { chain, heard, to }: ReadQuestion,
): (wrong: string, right: string) => 'same' | 'other' | 'perhaps' {
  const { data, width } = netlist.registers[to];
  const bits = Array.from({ length: width }, (_, bit) => ({ node: data, bit }));
  const cone = coneOf(netlist.nodes, order, bits);
  const known = new Map<string, string>();
  const taken = (value: string): string => {
    const found = known.get(value) ?? digitsTaken(netlist, cone, chain, { data, width, value: BigInt(value) });
    known.set(value, found);
    return found;
  };
  const mask = chain.registers.reduce((bits, id, bit) => (heard.includes(id) ? bits | (1n << BigInt(bit)) : bits), 0n);
  return (wrong, right) => {
    if (((BigInt(wrong) ^ BigInt(right)) & mask) === 0n) return 'same';
    const [got, wanted] = [taken(wrong), taken(right)];
    const differs = [...got].some((digit, at) => isKnown(digit) && isKnown(wanted[at]) && digit !== wanted[at]);
    if (differs) return 'other';
    return got === wanted && [...got].every(isKnown) ? 'same' : 'perhaps';
  };
}

function isKnown(digit: string): boolean {
  return digit === '0' || digit === '1';
}

/** The next value where the chain holds a number and everything else is open. */
function digitsTaken(
  netlist: Netlist,
  cone: SettingCone,
  { registers }: Chain,
  {
    data,
    value,
    width,
  }: { readonly data: Netlist['registers'][number]['data']; readonly value: bigint; readonly width: number },
): string {
  const setting = new Map(
    registers.map((id, bit) => [
      bitKey({ node: netlist.registers[id].node, bit: 0 }),
      ((value >> BigInt(bit)) & 1n) === 1n ? (1 as const) : (0 as const),
    ]),
  );
  const { values } = settleCone(netlist, cone, setting);
  const bits = values[cone.positionOf.get(data) as number];
  return Array.from({ length: width }, (_, bit) => digitAt(bits, bit)).join('');
}

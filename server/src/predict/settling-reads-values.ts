// Which numbers a register can read of a chain that is still on its way from one to the next. The bits of a chain change
// one after the other, so that a number passed is the old one with the first few of its changes done: readable are those
// between what is sure to have changed by then and what may have.

import type { Chain } from '../clocks/network';
import type { DelayTriple, Netlist, RegisterId } from '../netlist/netlist';
import type { Count, CountStep, Prediction } from './prediction';

export interface WrongReadings {
  /** The first few, in the order of the sequence. */
  readonly shown: readonly { readonly read: string; readonly instead: string }[];
  /** Over the steps that were looked at. */
  readonly total: number;
}

const most = 4;

interface Question {
  readonly chain: Chain;
  readonly count: Count | null;
  /** Arrival of the first stage's clock. */
  readonly first: DelayTriple;
  readonly read: {
    readonly heard: readonly RegisterId[];
    readonly available: DelayTriple;
    readonly path: number;
    readonly setup: number;
    readonly worst: { readonly from: bigint; readonly to: bigint } | null;
  };
}

/** None where the sequence is not known, or not made of one change after the other. */
export function wrongReadings(
  { netlist, prediction }: { readonly netlist: Netlist; readonly prediction: Prediction },
  question: Question,
): WrongReadings {
  const { chain, count, read } = question;
  const isPlain = chain.registers.every(
    (id) => netlist.registers[id].width === 1 && netlist.registers[id].asynchronous.length === 0,
  );
  if (count === null || count.period === null || !isPlain) return { shown: [], total: 0 };
  const found = stepsOf(count, read.worst).flatMap((step) => wrongOf(prediction, question, step));
  const distinct = [...new Map(found.map((pair) => [`${pair.read} ${pair.instead}`, pair])).values()];
  return { shown: distinct.slice(0, most), total: distinct.length };
}

/** Those that are listed, and the slowest, which may stand behind the end of the list. */
function stepsOf({ steps }: Count, worst: Question['read']['worst']): readonly Pick<CountStep, 'from' | 'to'>[] {
  if (worst === null) return steps;
  const slowest = { from: String(worst.from), to: String(worst.to) };
  return steps.some(({ from, to }) => from === slowest.from && to === slowest.to) ? steps : [...steps, slowest];
}

function wrongOf(
  prediction: Prediction,
  { chain, first, read }: Question,
  step: Pick<CountStep, 'from' | 'to'>,
): WrongReadings['shown'] {
  if (!/^\d+$/.test(step.from) || !/^\d+$/.test(step.to)) return [];
  const [from, to] = [BigInt(step.from), BigInt(step.to)];
  const changes = chain.registers.flatMap((register, bit) => {
    const after = (to >> BigInt(bit)) & 1n;
    if (((from >> BigInt(bit)) & 1n) === after) return [];
    const { fall, rise } = prediction.registers[register].settles ?? { fall: null, rise: null };
    const time = after === 1n ? rise : fall;
    return time === null ? [] : [{ bit, min: time.min - first.min, max: time.max - first.max }];
  });
  const sure = changes.filter(
    ({ max }) => max + read.path + read.setup <= read.available.min - (read.setup > 0 ? 0 : 1),
  );
  const late = changes.filter(({ min }) => min > read.available.max);
  const heard = maskOf(chain, read.heard);
  const found: { read: string; instead: string }[] = [];
  for (let done = sure.length; done <= changes.length - late.length; done++) {
    const value = changes.slice(0, done).reduce((number, { bit }) => number ^ (1n << BigInt(bit)), from);
    if (((value ^ to) & heard) !== 0n) found.push({ read: String(value), instead: String(to) });
  }
  return found;
}

function maskOf({ registers }: Chain, heard: readonly RegisterId[]): bigint {
  return registers.reduce((mask, id, bit) => (heard.includes(id) ? mask | (1n << BigInt(bit)) : mask), 0n);
}

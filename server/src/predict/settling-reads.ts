// Registers that read a ripple chain by another edge of its root than the one that moves it, before its last change is
// sure to be there (definitions 29, 32 and 33): how much time there is, how long the chain takes, and which numbers can
// be read instead. Reads at the very edge that moves it are a matter of skew; those of other clocks are crossings.

import type { Chain, RegisterClocking } from '../clocks/network';
import { setOfRegister } from '../delays/own-delays';
import { latestTriple, zeroTriple } from '../delays/triple';
import type { DelayTriple, RegisterId } from '../netlist/netlist';
import { type NodeOrder, orderNodes } from '../netlist/order';
import { registersHeard } from '../netlist/registers-heard';
import { createLogicDelays } from './arrival-logic';
import type { DriveClock } from './drive';
import type { ChainTiming } from './prediction';
import type { ReadsContext, SettlingRead } from './settling-read';
import { readWhileMoving } from './settling-reads-run';
import { wrongReadings } from './settling-reads-values';

type Context = ReadsContext & { readonly order: NodeOrder };

/** One per register, the latest. Yields after each chain, and as a run does where one is needed. */
export function* findSettlingReads(context: ReadsContext): Generator<void, readonly SettlingRead[]> {
  const { netlist, network } = context;
  if (network.chains.length === 0) return [];
  const found: SettlingRead[] = [];
  const order = orderNodes(netlist.nodes);
  for (const [index, chain] of network.chains.entries()) {
    found.push(...readsOfChain({ ...context, order }, chain, index));
    yield;
  }
  const worst = new Map<RegisterId, SettlingRead>();
  for (const read of found) {
    const known = worst.get(read.to);
    if (known === undefined || slackOf(read) < slackOf(known)) worst.set(read.to, read);
  }
  const reads = [...worst.values()].sort((left, right) => left.to - right.to);
  return yield* readWhileMoving(context, reads);
}

/** ps that are left; below 0 too late. At 0 without a setup time the last change meets the edge. */
export function slackOf({ available, path, settle, setup }: SettlingRead): number {
  return available.min - settle.max - path - setup;
}

function readsOfChain(context: Context, chain: Chain, index: number): SettlingRead[] {
  const { drive, netlist, network, prediction } = context;
  const timing = prediction.chains.find((entry) => entry.chain === index);
  const clock = drive.clocks.find(({ root }) => root === chain.root);
  const moving = network.registers[chain.registers[0]];
  if (timing === undefined || clock === undefined || chain.root === null || moving.root === null) return [];
  const members = new Set(chain.registers);
  const logic = createLogicDelays(netlist, prediction.delaySet);
  return netlist.registers.flatMap((register) => {
    const reading = network.registers[register.id];
    if (members.has(register.id) || reading.stage !== 1 || reading.root?.root !== chain.root) return [];
    const hears = new Set(registersHeard(netlist, register).map(({ register: id }) => id));
    const heard = chain.registers.filter((id) => hears.has(id));
    // What stands at the first stage alone settles as everything that the root clocks does.
    if (!heard.some((id) => network.registers[id].stage > 1)) return [];
    return readOf(context, { chain, clock, heard, index, moving, reading, timing }, logic.toDataOf(register.id).max);
  });
}

interface Pair {
  readonly chain: Chain;
  readonly index: number;
  readonly clock: DriveClock;
  readonly timing: ChainTiming;
  readonly moving: RegisterClocking;
  readonly reading: RegisterClocking;
  readonly heard: readonly RegisterId[];
}

function readOf(context: Context, pair: Pair, path: number): SettlingRead[] {
  const { chain, clock, heard, index, moving, reading, timing } = pair;
  const { netlist, prediction } = context;
  const to = reading.register;
  const [own, first] = [prediction.registers[to].arrival, prediction.registers[moving.register].arrival];
  if (own === null || first === null) return [];
  const distance = distanceOf(clock, moving, reading);
  const isOneNet =
    moving.clock === reading.clock && netlist.registers[to].edge === netlist.registers[moving.register].edge;
  const available = isOneNet ? exactly(distance.ps) : shifted(distance.ps, own, first);
  const settle = since(settleOf(context, pair), first);
  const setup = setOfRegister(prediction.delaySet, to).setup?.max ?? 0;
  const slack = available.min - settle.max - path - setup;
  if (slack > 0 || (slack === 0 && setup > 0)) return [];
  const isEnabled = netlist.registers[to].enables.length > 0;
  const isAssumed = (source: DriveClock['source']) => source !== 'given' && source !== 'text';
  const clockAssumed = isAssumed(clock.source) || (!distance.isWhole && isAssumed(clock.highSource));
  const count = prediction.counts.find((entry) => entry.chain === index) ?? null;
  const { worst } = timing;
  const wrong = wrongReadings(
    { netlist, prediction, order: context.order },
    { to, chain, heard, count, first, available, path, setup, worst },
  );
  // Whatever number is read, the register makes the same of it.
  if (wrong !== null && wrong.total === 0) return [];
  const isCertain = !clockAssumed && !isEnabled && wrong?.isSure === true;
  const isWholePeriod = distance.isWhole;
  const how = { isCertain, isEnabled, clockAssumed, isWholePeriod };
  return [{ to, chain: index, heard, available, settle, path, setup, worst, wrong, ...how }];
}

/** Of what is heard; of a chain that something clears, of all of it. */
function settleOf({ netlist, prediction }: ReadsContext, { chain, heard, timing }: Pair): DelayTriple {
  const isCleared = chain.registers.some((id) => netlist.registers[id].asynchronous.length > 0);
  if (isCleared || heard.length === chain.registers.length) return timing.settle;
  return heard
    .flatMap((id) => {
      const { fall, rise } = prediction.registers[id].settles ?? { fall: null, rise: null };
      return [rise ?? zeroTriple, fall ?? zeroTriple];
    })
    .reduce(latestTriple, zeroTriple);
}

/** From the edge that moves the chain to the next one that reads. */
function distanceOf(
  { high, period }: DriveClock,
  moving: RegisterClocking,
  reading: RegisterClocking,
): { readonly ps: number; readonly isWhole: boolean } {
  const [from, to] = [moving.root?.edge, reading.root?.edge];
  if (from === to && from !== 'either') return { ps: period, isWhole: true };
  if (from === 'either' || to === 'either') return { ps: Math.min(high, period - high), isWhole: false };
  return { ps: from === 'rising' ? high : period - high, isWhole: false };
}

function exactly(ps: number): DelayTriple {
  return { min: ps, typ: ps, max: ps };
}

function shifted(ps: number, own: DelayTriple, first: DelayTriple): DelayTriple {
  return { min: ps + own.min - first.max, typ: ps + own.typ - first.typ, max: ps + own.max - first.min };
}

/** The chain's own time, counted from where its first stage is clocked. */
function since(settle: DelayTriple, first: DelayTriple): DelayTriple {
  return { min: settle.min - first.min, typ: settle.typ - first.typ, max: settle.max - first.max };
}

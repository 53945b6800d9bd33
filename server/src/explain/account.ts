// An account: why a bit changed at an instant, or why an edge changed nothing: the chain of causes back to the drive, as
// data. Times in ps. The words stand in `account-words.ts`. Follows what the waves recorded and decides nothing anew.

import type { Digit } from '../netlist/four-state';
import type { Bit } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import type { Waves } from '../predict/waves';
import { type HeldReason, heldReasonOf } from './account-held';
import { type NeverStep, neverSteps } from './account-never';
import { type AccountContext, type AccountStep, registerAt, stepsFrom } from './account-steps';
import { changeAtOrBefore, digitAfter } from './wave-reading';

export interface Account {
  readonly signal: string;
  /** The instant that was asked about. */
  readonly at: number;
  /**
   * changed: the bit changed at `at`. answered: it changed later, because of what happened at `at`. held: an edge met it
   * at `at` and it kept its value. steady: nothing met it at `at`; the steps tell of its last change before.
   */
  readonly outcome: 'changed' | 'answered' | 'held' | 'steady';
  /** Its value before and after the change that is told of; equal where none is. */
  readonly from: Digit;
  readonly to: Digit;
  /** The change, its cause, that one's cause and so on; of `held`, from the edge that met it. The last is the drive. */
  readonly steps: readonly AccountStep[];
  readonly held: HeldReason | null;
  /** Of a bit that does not change in the whole run: why, each link the cause of the one before; else empty. */
  readonly never: readonly NeverStep[];
  /** From the drive to the change that is told of, ps; null where none is, or where the drive itself changed. */
  readonly latency: Latency | null;
}

export interface Latency {
  readonly from: string;
  readonly ps: number;
  /** What each named bit on the way adds, in the order in which they change; their sum is the whole. */
  readonly parts: readonly { readonly signal: string; readonly ps: number }[];
}

/** `bit` may be any bit of the netlist; `name` is what to call it. */
export function accountOf(context: AccountContext, bit: Bit, name: string, at: number): Account {
  const { netlist, waves } = context;
  const source = sourceBit(netlist.nodes, bit);
  const last = changeAtOrBefore(waves, source, at);
  if (last >= 0 && waves.changes.time[last] === at)
    return accountOfChange(context, { name, at, outcome: 'changed' }, last);
  const edge = clockChangeAt(context, source, at);
  if (edge >= 0) return accountOfEdge(context, source, { name, at }, edge);
  const value = digitAfter(waves, source, at);
  const steps = last < 0 ? [] : stepsFrom(context, last);
  const never = neverSteps(context, source);
  return { signal: name, at, outcome: 'steady', from: value, to: value, steps, held: null, never, latency: null };
}

function accountOfChange(
  context: AccountContext,
  asked: { readonly name: string; readonly at: number; readonly outcome: 'changed' | 'answered' },
  change: number,
): Account {
  const steps = stepsFrom(context, change);
  const { after, before } = steps[0];
  return {
    signal: asked.name,
    at: asked.at,
    outcome: asked.outcome,
    from: before,
    to: after,
    steps,
    held: null,
    never: [],
    latency: latencyOf(steps),
  };
}

function latencyOf(steps: readonly AccountStep[]): Latency | null {
  const origin = steps[steps.length - 1];
  if (steps.length < 2 || origin.what !== 'drive') return null;
  const named = steps.filter(({ signal }, index) => index === 0 || signal !== null).reverse();
  const parts = named.slice(1).map(({ at, text }, index) => ({ signal: text, ps: at - named[index].at }));
  return { from: origin.text, ps: steps[0].at - origin.at, parts };
}

/** The change of a register's clock pin at that instant; -1 where there is none, and for other bits. */
function clockChangeAt({ netlist, waves }: AccountContext, source: Bit, at: number): number {
  const register = registerAt(netlist, source.node);
  if (register === null) return -1;
  const edge = changeAtOrBefore(waves, sourceBit(netlist.nodes, register.clock), at);
  return edge >= 0 && waves.changes.time[edge] === at ? edge : -1;
}

/** What came of a change of the register's clock pin: an answer later, or nothing and why. */
function accountOfEdge(
  context: AccountContext,
  source: Bit,
  asked: { readonly name: string; readonly at: number },
  edge: number,
): Account {
  const { netlist, waves } = context;
  const answer = answerTo(waves, source, edge);
  if (answer >= 0) return accountOfChange(context, { ...asked, outcome: 'answered' }, answer);
  const value = digitAfter(waves, source, asked.at);
  const register = netlist.registers[netlist.nodes.aux[source.node]];
  return {
    signal: asked.name,
    at: asked.at,
    outcome: 'held',
    from: value,
    to: value,
    steps: stepsFrom(context, edge),
    held: heldReasonOf(context, register, source.bit, edge),
    never: neverSteps(context, source),
    latency: null,
  };
}

/** The change of `bit` that `edge` caused; -1 where it caused none. */
export function answerTo(waves: Waves, bit: Bit, edge: number): number {
  const own = waves.changesOf(bit);
  for (let position = 0; position < own.length; position += 1) {
    if (waves.changes.cause[own[position]] === edge) return own[position];
  }
  return -1;
}

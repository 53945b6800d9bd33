// Data that waits: it crosses bare, but is sampled only while a synchronized bit of the sending domain says so, and keeps
// its value else (definition 39). That the sender really waits is seen where an answer comes back to it (a handshake);
// without one it is assumed. Reads multiplexers and cases; the same written as masks of and and or stays bare.

import { bitKey } from '../netlist/bit-key';
import type { Bit, Register, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { coneSources } from './cone-bits';
import { type Context, opOf, operandSource, operandSources } from './context';
import { choiceAt, dataSource } from './data-choices';
import { controlName } from './launches';
import type { Crossing, DomainId } from './network';
import { chainBehind, registerBitOf } from './synchronizers';

export interface HoldQuestion {
  readonly context: Context;
  readonly domainOf: (node: Bit['node']) => DomainId | null;
  /** Whether a bit hears the sending domain within one instant. */
  readonly hears: (bit: Bit) => boolean;
  readonly to: Register;
  readonly toDomain: DomainId;
  readonly fromDomain: DomainId;
  readonly senders: readonly RegisterId[];
}

/** Null where some bit is sampled without such an enable. */
export function holdOf(
  question: HoldQuestion,
  lanes: readonly number[],
): Pick<Crossing, 'synchronizer' | 'status' | 'evidence'> | null {
  const guards = createGuards(question);
  const enable = lanes.map((bit) => guardOfLane(question, guards, bit));
  const [first] = enable;
  if (first === undefined || enable.includes(null) || first === null) return null;
  const held = { reason: 'sampled-under-enable', args: { enable: controlName(question.context, first) } };
  const answer = answerOf(question);
  if (answer === null) {
    return {
      synchronizer: 'enable',
      status: 'assumed',
      evidence: [held, { reason: 'sender-assumed-to-hold', args: {} }],
    };
  }
  const answered = { reason: 'sender-waits-for-answer', args: { answer: controlName(question.context, answer) } };
  return { synchronizer: 'handshake', status: 'protected', evidence: [held, answered] };
}

type IsGuard = (condition: Bit) => boolean;

/** The last enable on every way from the register's data to what it hears of the sender; null where a way has none. */
function guardOfLane({ context, hears, to }: HoldQuestion, isGuard: IsGuard, bit: number): Bit | null {
  let found: Bit | null = null;
  const seen = new Set<number>();
  const waiting: { readonly source: Bit; readonly guard: Bit | null }[] = [
    { source: dataSource(context, to, bit), guard: null },
  ];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { source, guard } = next;
    const key = bitKey(source) * 2 + (guard === null ? 0 : 1);
    if (seen.has(key) || !hears(source)) continue;
    seen.add(key);
    const choice = choiceOf(context, source);
    if (choice === null || choice.conditions.some(hears)) {
      if (guard === null) return null;
      found = guard;
      continue;
    }
    const own = choice.conditions.find(isGuard) ?? null;
    for (const arm of choice.arms) waiting.push({ source: arm, guard: own ?? guard });
  }
  return found;
}

/** A two-way choice or a case, as what decides and what is chosen from. */
function choiceOf(
  context: Context,
  source: Bit,
): { readonly conditions: readonly Bit[]; readonly arms: readonly Bit[] } | null {
  const choice = choiceAt(context, source);
  if (choice !== null) return { conditions: [choice.condition], arms: [choice.taken, choice.otherwise] };
  if (opOf(context, source) !== Op.select) return null;
  const count = context.nodes.arity[source.node];
  const labels = Array.from({ length: (count - 2) / 2 }, (_, arm) => 1 + 2 * arm);
  return {
    conditions: [0, ...labels].flatMap((operand) => operandSources(context, source.node, operand)),
    arms: [...labels.map((label) => label + 1), count - 1].map((operand) =>
      operandSource(context, source.node, operand, source.bit),
    ),
  };
}

/** Registers of the receiving domain that may stand between the synchronizer and the enable, one behind the other. */
const mostBetween = 2;

/**
 * Whether a condition follows a bit of the sending domain that two flip-flops or more have brought over. One that also
 * hears a first flip-flop does not: that may still be settling when it decides.
 */
function createGuards({ context, domainOf, toDomain, fromDomain }: HoldQuestion): IsGuard {
  const known = new Map<number, boolean>();
  const flopsFromSender = (source: Bit): number => {
    const { flops, end } = chainBehind(context, source);
    return domainOf(end.node) === fromDomain ? flops.length : 0;
  };
  const follows = (condition: Bit, steps: number): boolean => {
    const sources = coneSources(context, [condition]).filter(({ node }) => domainOf(node) === toDomain);
    const rows = sources.map(flopsFromSender);
    if (rows.includes(1)) return false;
    if (rows.some((flops) => flops >= 2)) return true;
    if (steps === 0) return false;
    return sources.some((source) => {
      const held = registerBitOf(context, source);
      return held !== null && follows(dataSource(context, held.register, held.bit), steps - 1);
    });
  };
  return (condition) => {
    const key = bitKey(condition);
    const answer = known.get(key) ?? follows(condition, mostBetween);
    known.set(key, answer);
    return answer;
  };
}

/** A bit of the receiving domain that comes back through two flip-flops and decides when the senders change. */
function answerOf({ context, domainOf, toDomain, fromDomain, senders }: HoldQuestion): Bit | null {
  for (const sender of senders) {
    const register = context.netlist.registers[sender];
    const sources = coneSources(context, [dataSource(context, register, 0)]);
    const answer = sources.find((source) => {
      const { flops, end } = chainBehind(context, source);
      return flops.length >= 2 && domainOf(source.node) === fromDomain && domainOf(end.node) === toDomain;
    });
    if (answer !== undefined) return answer;
  }
  return null;
}

// The sentence of every finding, from its facts. `hazards/` has decided; nothing is decided here. A sentence says what was
// found, why it matters and, where that is known, what to do.

import type { Finding } from '../hazards/finding';
import { type Facts, readFacts } from './facts';
import type { FindingSentences } from './finding-sentence';
import { glitchFindings } from './findings-glitches';
import { timingFindings } from './findings-timing';
import { listWords, shortListWords } from './words';
import { whyWords } from './why';
import { timeWords } from '../text/time-words';

export function findingWords(finding: Finding): string {
  return findingSentences[finding.id]?.(readFacts(finding.facts), finding) ?? plainWords(finding);
}

/** A finding without a sentence is our mistake; its name and signals still say something. */
function plainWords({ id, signals }: Finding): string {
  return `${id.replaceAll('-', ' ')}: ${shortListWords(signals, 8)}`;
}

export const findingSentences: FindingSentences = {
  'ripple-chain': (facts, { signals }) =>
    `${shortListWords(signals, 6)} clock one another: a reading is whole only ${settleWords(facts)} after an edge of ${facts.text('root', 'the root')}; clock all of them from ${facts.text('root', 'one clock')} and enable each by those before it`,
  'derived-clock': (facts, finding) => derivedWords(facts, finding),
  'gated-clock': (facts, finding) =>
    facts.text('verdict') === 'sound'
      ? `${facts.text('clock')} gates ${fromWords(facts)} soundly: ${gateWords(finding)}`
      : `${facts.text('clock')} gates ${fromWords(facts)} and ${mayWords(finding)} a cut or stray pulse: ${gateWords(finding)}; let the control change only while the gate is blocked, or enable the registers instead`,
  'switched-clock': (facts, finding) =>
    facts.text('verdict') === 'sound'
      ? `${facts.text('clock')} switches between ${fromWords(facts)} soundly: ${gateWords(finding)}`
      : `${facts.text('clock')} switches between ${fromWords(facts)} and ${mayWords(finding)} a cut or stray pulse: ${gateWords(finding)}; let each clock wait until the other is off`,
  'unclear-clock': (facts) =>
    `${facts.text('clock')} is made of ${listWords(facts.list('candidates'))} and it is not clear which is the clock: say so under clockOperands in foretick.json`,
  'skewed-transfer': (facts) =>
    `${facts.text('to')} samples ${facts.text('from')} while it moves: both follow one edge of ${facts.text('root', 'the root')}, and the data comes ${dataWords(facts)}, so old or new value; clock both from one net, or sample at the other edge`,
  'bare-crossing': (facts) => crossingWords(facts),
  'bus-crossing': (facts) => crossingWords(facts),
  'logic-before-synchronizer': (facts) => crossingWords(facts),
  'rejoined-crossing': (facts) => rejoinedWords(facts),
  'short-pulse-crossing': (facts, finding) => shortPulseWords(facts, finding),
  'raw-input': (facts) => rawInputWords(facts),
  'reset-crossing': (facts) => resetCrossingWords(facts),
  'decoded-reset': (facts) => decodedResetWords(facts),
  'opposite-edges': (facts) => {
    const [root, budget] = [facts.text('root'), facts.number('budgetPs')];
    return `${shortListWords(facts.list('to'), 4)} sampled when ${root} ${facts.text('edge') === 'falling' ? 'falls' : 'rises'}, behind logic of ${shortListWords(facts.list('from'), 4)} from its other edge: the logic has ${budget === null ? 'half a period' : timeWords(budget)}, not a whole period, to settle`;
  },
  'reset-release': (facts) => releaseWords(facts),
  'reset-in-enable': (facts) => {
    const [registers, reset] = [facts.list('registers'), facts.text('reset')];
    return `${shortListWords(registers, 4)} ${registers.length === 1 ? 'has' : 'have'} no value under ${reset} in a process that resets others, and so ${registers.length === 1 ? 'keeps what it holds' : 'keep what they hold'} while ${reset} is ${facts.text('active')}, as behind an enable: give a reset value, or a process without the reset`;
  },
  'trap-state': (facts) => trapWords(facts),
  'clock-as-data': (facts) => {
    const [clock, registers] = [facts.text('clock'), facts.list('registers')];
    return `${shortListWords(registers, 4)} ${registers.length === 1 ? 'takes' : 'take'} ${clock}, a clock of the same domain, as data: at the edge that samples it is changing, so which level is taken hangs on the lengths of two paths; use an enable, or a register that turns over`;
  },
  'structural-hazard': (facts) => structuralWords(facts),
  'unintended-latch': (facts) =>
    `${facts.text('latch')} keeps its value where this leaves it alone, which makes a latch: assign it on every way through the block, or give it a value first`,
  'combinational-loop': (facts, finding) => loopWords(facts, finding),
  'unknown-start': (facts) =>
    `${facts.text('register')} can stay unknown for ever: no reset, no initial value and no edge of ${facts.text('clock', 'its clock')} is sure to set it`,
  'mixed-assignment': (facts) => mixedWords(facts),
  'stale-sensitivity': (facts) => {
    const [targets, missing, listed] = [facts.list('targets'), facts.list('missing'), facts.list('listed')];
    const awaited = `${listed.length === 1 ? '' : 'one of '}${listWords(listed)}`;
    return `${shortListWords(targets, 4)} ${targets.length === 1 ? 'reads' : 'read'} ${shortListWords(missing, 6)}, which the list leaves out: as the language runs it nothing happens until ${awaited} changes, hardware answers at once; write @*`;
  },
  'text-race': (facts) =>
    `${facts.text('net')} follows ${facts.text('variable')}, which this process has just written with =: as the language runs it the old value or the new one may be read here; write <=, or read ${facts.text('variable')} itself`,
  'shared-driver': (facts) => driverWords(facts),
  ...glitchFindings,
  ...timingFindings,
};

function settleWords(facts: Facts): string {
  const latest = facts.number('settleMaxPs');
  if (latest === null) return 'a while';
  const [from, to] = [facts.text('worstFrom', ''), facts.text('worstTo', '')];
  return `${timeWords(latest)}${from === '' ? '' : ` (from ${from} to ${to})`}`;
}

/** Logic of several unrelated clocks has no root that it could follow. */
function derivedWords(facts: Facts, { signals }: Finding): string {
  const clock = facts.text('clock');
  const clocked = `itself clocks ${shortListWords(signals.slice(1), 4)}`;
  const from = facts.list('from');
  if (facts.text('root', '') === '' && from.length > 1)
    return `${clock} is logic of ${listWords(from)} and ${clocked}: nothing orders their edges, so pulses of any width can pass; clock from one of them`;
  const root = facts.text('root', 'a root');
  return `${clock} is an output of what ${root} clocks, and ${clocked}${lateWords(facts)}; clock from ${facts.text('root', 'the root')} and use ${clock} as the enable`;
}

function lateWords(facts: Facts): string {
  const latest = facts.number('arrivalMaxPs');
  if (latest === null || latest === 0) return '';
  return `: what it clocks acts ${timeWords(latest)} after an edge of ${facts.text('root', 'the root')}`;
}

function fromWords(facts: Facts): string {
  return listWords(facts.list('from')) || 'a clock';
}

function mayWords({ certainty }: Finding): string {
  return certainty === 'certain' ? 'makes' : 'can make';
}

/** The first related place of a gate says why it is judged so. */
function gateWords({ related }: Finding): string {
  return related.length === 0 ? 'its controls decide' : whyWords(related[0].why);
}

/** `1 ns after the clock edge`, `at the clock edge itself`, `from 1 ns before to 2 ns after the clock edge`. */
function dataWords(facts: Facts): string {
  const [first, last] = [facts.number('dataAfterClockMinPs') ?? 0, facts.number('dataAfterClockMaxPs') ?? 0];
  if (first === last) return first === 0 ? 'at the clock edge itself' : `${sideWords(first)} the clock edge`;
  return `from ${sideWords(first)} to ${sideWords(last)} the clock edge`;
}

function sideWords(ps: number): string {
  return ps < 0 ? `${timeWords(-ps)} before` : `${timeWords(ps)} after`;
}

function crossingWords(facts: Facts): string {
  const bits = facts.number('bits') ?? 1;
  const what = `${facts.text('to')} samples ${shortListWords(facts.list('from'), 4)} from clock domain ${facts.text('fromDomain')} in ${facts.text('toDomain')}`;
  if (bits > 1 && !facts.flag('throughLogic')) {
    return `${what}: ${bits} bits that may arrive in different periods, however many flip-flops follow; pass them in Gray code, or hold them and pass one enable`;
  }
  if (!facts.flag('throughLogic'))
    return `${what} without a second flip-flop: put two in a row before anything reads it`;
  return (facts.number('depth') ?? 1) > 1
    ? `${what} behind logic, which may pass a wrong level just then: sample a register of ${facts.text('fromDomain')} instead`
    : `${what} behind logic: put two flip-flops in a row first, then the logic`;
}

function rejoinedWords(facts: Facts): string {
  const [from, through] = [facts.list('from'), facts.list('through')];
  const one = from.length === 1;
  return `${facts.text('to')} hangs on ${shortListWords(through, 4)}, which bring ${shortListWords(from, 4)} over from ${facts.text('fromDomain')} ${one ? 'twice' : 'one by one'}: ${one ? 'one copy' : 'one'} may come a period later than the other${one ? '' : ', and a pair is seen that was never sent'}; ${one ? 'bring it over once' : 'bring over one bit and hold the others, or pass them in Gray code'}`;
}

function shortPulseWords(facts: Facts, { certainty }: Finding): string {
  const width = timeWords(facts.number('widthPs') ?? 0);
  const needed = timeWords(facts.number('neededPs') ?? 0);
  const what = `${facts.text('from')} stands for ${width} and ${facts.text('to')} samples every ${timeWords(facts.number('receivingPeriodPs') ?? 0)}`;
  const cure = 'let it turn over at each event and detect the change, or hold it until it is answered';
  return certainty === 'certain'
    ? `${what}: an event can come and go between two edges of ${facts.text('toDomain')} unseen, as anything shorter than ${needed} can; ${cure}`
    : `${facts.text('from')} stands for one period of ${facts.text('fromDomain')}: unless ${facts.text('toDomain')} is faster, ${facts.text('to')} can miss it; state both periods under clocks in foretick.json, or ${cure}`;
}

function rawInputWords(facts: Facts): string {
  const [raw, safe, domains] = [facts.list('raw'), facts.list('synchronized'), facts.list('domains')];
  const what = `${shortListWords(raw, 4)} ${raw.length === 1 ? 'samples' : 'sample'} port ${facts.text('port')} as it comes`;
  const why =
    domains.length > 1
      ? `and ${listWords(domains)} hear it: it cannot be in step with all of them, so one reader may see a change a period before another`
      : `though ${shortListWords(safe, 4)} ${safe.length === 1 ? 'brings' : 'bring'} it in through flip-flops in a row: one reader may see a change a period before the other`;
  return `${what}, ${why}; bring it in once for each clock and read that, or state it under static or inputs in foretick.json`;
}

function resetCrossingWords(facts: Facts): string {
  const [from, domains] = [facts.list('from'), facts.list('fromDomains')];
  return `${facts.text('reset')} is let go by ${listWords(domains)} (${shortListWords(from, 4)}) and resets ${shortListWords(facts.list('registers'), 4)} of ${facts.text('toDomain')}: released at an edge of ${facts.text('toDomain')}, some of its flip-flops may leave a period before the others; bring the release over through two flip-flops of ${facts.text('toDomain')}`;
}

function decodedResetWords(facts: Facts): string {
  const [answer, needed] = [facts.number('answerPs'), facts.number('neededPs')];
  const after = answer === null ? '' : `, after as little as ${timeWords(answer)} and the logic`;
  const enough = needed === null ? '' : `, where ${timeWords(needed)} is asked for`;
  return `${facts.text('reset')} is decoded from ${shortListWords(facts.list('from'), 4)}, which it clears: it ends as soon as the first of them has answered${after}${enough}, and the others may not be cleared; clear at the clock edge before instead`;
}

function structuralWords(facts: Facts): string {
  const [value, ends] = [facts.number('value') ?? 0, facts.list('ends')];
  const [from, through] = value === 1 ? ['1', 'drop to 0'] : ['0', 'rise to 1'];
  return `with ${shortListWords(facts.list('held'), 6) || 'nothing else'}, what leads to ${shortListWords(ends, 4)} stays ${from} while ${facts.text('moving')} changes, but may ${through} for a moment: no term holds it; ${facts.text('term')} would; only if built as written, since synthesis may merge gates and removes such a term again: a register before the end is the lasting cure`;
}

function releaseWords(facts: Facts): string {
  const [bits, domains] = [facts.number('bits') ?? 0, facts.list('domains')];
  const apart = bits === 1 ? 'the flip-flop that it resets' : `some of the ${bits} flip-flops that it resets`;
  return `${facts.text('reset')} may be released at any time, at an edge of ${listWords(domains) || 'the clock'} too: ${apart} may start a period later${bits === 1 ? '' : ' than the others'}; release it through two flip-flops of each clock, or state it under resets in foretick.json`;
}

function trapWords(facts: Facts): string {
  const [total, trapped] = [facts.number('trappedTotal') ?? 0, facts.list('trapped')];
  const values = `${trapped.join(', ')}${total > trapped.length ? ' …' : ''}`;
  const what = `${shortListWords(facts.list('registers'), 6)} never ${facts.list('registers').length === 1 ? 'comes' : 'come'} back from ${total === 1 ? 'the value' : `${total} values,`} ${values} to the ${facts.number('used') ?? 0} of the sequence`;
  return facts.flag('mayStartThere')
    ? `${what}, and may start there, since nothing sets a start value: reset it into the sequence, or lead other values back`
    : `${what}: after an upset only a reset helps; lead other values back where that matters`;
}

function mixedWords(facts: Facts): string {
  const signal = facts.text('signal');
  switch (facts.text('how')) {
    case 'both-kinds':
      return `${signal} is assigned by both = and <=: use <= for what is clocked`;
    case 'nonblocking-in-level-process':
      return `${signal} is assigned by <= in a process without a clock: use = there`;
    default:
      return `${signal} is assigned by = at a clock edge and read by another process at the same edge: the order is open, use <=`;
  }
}

function driverWords(facts: Facts): string {
  const [signal, drivers] = [facts.text('signal'), facts.number('drivers') ?? 2];
  const levels = facts.list('while');
  return levels.length === 0
    ? `${signal} is driven from ${drivers} places, this is another: what it holds where they disagree is unknown`
    : `${signal} is driven from two places at one time while ${listWords(levels)}: what it holds where they disagree is unknown; let the enables exclude each other`;
}

function loopWords(facts: Facts, { certainty }: Finding): string {
  const signals = facts.list('signals');
  const what = `${shortListWords(signals, 6)} ${feedWords(signals.length, certainty)} without a register between`;
  const latches = facts.list('latches');
  if (latches.length > 0) return openLatchWords(signals, latches);
  switch (facts.text('feedback')) {
    case 'keeps':
      return `${what}, and so ${signals.length === 1 ? 'keeps' : 'keep'} a value as a latch does: if that is meant, write it as one; if not, cut the loop`;
    case 'inverts':
      return `${what}, with an odd number of inversions on the way: it oscillates whenever its other inputs let it through; cut the loop, or put a register in it`;
    default:
      return `${what}: it may oscillate or settle to a value that nothing decides; cut the loop, or put a register in it`;
  }
}

function openLatchWords(signals: readonly string[], latches: readonly string[]): string {
  const what = `${shortListWords(signals, 6)} ${feedWords(signals.length, 'certain')}`;
  const open = `while ${shortListWords(latches, 4)} ${latches.length === 1 ? 'is' : 'are'} open`;
  return `${what} ${open}: the value runs round as often as the open time allows; sample it at a clock edge, or put a latch between that is shut meanwhile`;
}

/** `feeds itself`, `feed each other`, with `can` where a select may cut the loop. */
function feedWords(signals: number, certainty: Finding['certainty']): string {
  const whom = signals === 1 ? 'itself' : 'each other';
  if (certainty === 'possible') return `can feed ${whom}`;
  return signals === 1 ? `feeds ${whom}` : `feed ${whom}`;
}

// The sentences of findings about glitches: `y passes a wrong value for 1 ns when q goes from 1 to 2 …`. The facts tell of the widest
// pulse; a certain verdict names the delay set it holds for (definition 22).

import type { Finding } from '../hazards/finding';
import type { EndKind } from '../hazards/glitch';
import type { Facts } from './facts';
import type { FindingSentences } from './finding-sentence';
import { endsWords } from './glitches';
import { type Stretch, stretchesOf, stretchNames } from './vectors';
import { listWords, shortListWords } from './words';
import { timeWords } from '../text/time-words';

export const glitchFindings: FindingSentences = {
  'decoded-glitch': (facts, finding) =>
    finding.severity === 'hint'
      ? `${facts.text('signal')} ${pulseWords(facts, finding)}: harmless unless what reads it reacts to every change; a register behind the decode ends it`
      : `${facts.text('signal')} ${pulseWords(facts, finding)} and reaches ${reachedWords(facts)}; put a register behind the decode`,
  'glitch-into-clock': (facts, finding) =>
    `${facts.text('signal')} ${pulseWords(facts, finding)} and clocks ${endNames(facts)}: every pulse is an edge; clock it from ${facts.text('root', 'the root')} and use the decode as its enable`,
  'glitch-into-reset': (facts, finding) =>
    `${facts.text('signal')} ${pulseWords(facts, finding)} and resets ${endNames(facts)} at once: register the decode first, or clear at the clock edge`,
  'glitch-into-latch': (facts, finding) =>
    `${facts.text('signal')} ${pulseWords(facts, finding)} and opens ${endNames(facts)}: register the decode first`,
};

/** A hint speaks for all decodes of a block; its numbers are those of the first. */
function othersWords(facts: Facts): string {
  const others = stretchNames(facts.list('decodes').filter((decode) => decode !== facts.text('signal')));
  return others.length === 0 ? '' : ` (${shortListWords(others, 4)} too)`;
}

/** `passes a wrong value for 1 ns when q[1] and q[0] go from 1 to 2 (one of 6 such steps), certain with delay set unit`. */
function pulseWords(facts: Facts, { certainty }: Finding): string {
  const isCertain = certainty === 'certain';
  const width = facts.number('widestPs') ?? 0;
  const long = width > 0 ? ` for ${isCertain ? '' : 'up to '}${timeWords(width)}` : '';
  const step = `when ${stepWords(facts.list('registers'), facts.text('from'), facts.text('to'))}`;
  const steps = (facts.number('certainTransitions') ?? 0) + (facts.number('possibleTransitions') ?? 0);
  const all = steps > 1 && facts.list('decodes').length < 2 ? ` (one of ${steps} such steps)` : '';
  const verdict = isCertain ? `, certain with delay set ${facts.text('delaySet')}` : '';
  return `${isCertain ? 'passes' : 'can pass'} a wrong value${long} ${step}${all}${verdict}${othersWords(facts)}`;
}

/** `n[3:0] goes from 7 to 8`; of several vectors each its own numbers: `wp[1:0] goes from 1 to 2 and rp[1:0] from 0 to 3`. */
function stepWords(registers: readonly string[], from: string, to: string): string {
  const stretches = stretchesOf(registers);
  const names = stretches.map(({ name }) => name);
  const numbers = [from, to].map((number) => splitNumber(number, stretches));
  const hasVectors = stretches.some(({ bits }) => bits > 1);
  if (!hasVectors || stretches.length === 1 || stretches.length > mostStretches || numbers.includes(null)) {
    return `${shortListWords(names, 6)} ${names.length === 1 ? 'goes' : 'go'} from ${from} to ${to}`;
  }
  const parts = names.map((name, index) => ({ name, from: numbers[0]?.[index], to: numbers[1]?.[index] }));
  const moving = parts.filter((part) => part.from !== part.to);
  const still = parts.filter((part) => part.from === part.to).map((part) => `${part.name} at ${part.to}`);
  const steps = moving.map(
    (part, index) => `${part.name}${index === 0 ? ' goes' : ''} from ${part.from} to ${part.to}`,
  );
  return `${listWords(steps)}${still.length === 0 ? '' : `, with ${listWords(still)}`}`;
}

const mostStretches = 4;

/** A number by the stretches that its bits belong to, most significant first; null where bits of it are unknown. */
function splitNumber(number: string, stretches: readonly Stretch[]): readonly string[] | null {
  const width = stretches.reduce((sum, { bits }) => sum + bits, 0);
  if (!/^\d+$/.test(number)) return null;
  const digits = BigInt(number).toString(2).padStart(width, '0');
  let at = 0;
  return stretches.map(({ bits }) => {
    at += bits;
    return BigInt(`0b${digits.slice(at - bits, at)}`).toString();
  });
}

function reachedWords(facts: Facts): string {
  const kinds = facts.list('endKinds') as readonly EndKind[];
  return `${endsWords(kinds.map((kind) => ({ kind })))} (${endNames(facts)})`;
}

function endNames(facts: Facts): string {
  return shortListWords(stretchNames(facts.list('ends')), 4) || 'what it drives';
}

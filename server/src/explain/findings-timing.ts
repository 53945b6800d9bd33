// Sentences of the findings about timing checks. They say who states the limit, what was met instead, and that wires,
// placement and the spread between parts are not seen: a margin here is no sign-off.

import type { Finding } from '../hazards/finding';
import { timeWords } from '../text/time-words';
import type { Facts } from './facts';
import type { FindingSentences } from './finding-sentence';
import { countWords, listWords, rateWords, shortListWords } from './words';

export const timingFindings: FindingSentences = {
  'setup-hold': (facts, finding) => `${sampleWords(facts)}${circumstances(facts, finding)}${unseen}`,
  'recovery-removal': (facts, finding) => `${releaseWords(facts)}${circumstances(facts, finding)}${unseen}`,
  'narrow-pulse': (facts, finding) => `${pulseWords(facts)}${circumstances(facts, finding)}${unseen}`,
  'read-while-settling': (facts) => `${readWords(facts)}${unseen}`,
};

const unseen =
  '; wires, placement and load are not seen: sign-off timing analysis, measurement and the maker’s data decide';

function sampleWords(facts: Facts): string {
  const [data, reference, gap] = [facts.text('data'), facts.text('reference'), gapWords(facts)];
  switch (facts.text('check')) {
    case 'skew':
      return `${data} follows ${reference} ${gap} later, and at most ${limitWords(facts)} is allowed: bring their paths to one length`;
    case 'nochange':
      return `${data} moves while ${reference} is at the level that asks it to stay: let it move outside`;
    case 'hold':
      return `${data} ${isInRun(facts) ? 'moves' : `can move, by the shortest way from ${facts.text('from')},`} ${gap} after ${reference}, which asks that it stays for ${limitWords(facts)}: old or new value is taken; put delay into the short way, or launch it later`;
    default:
      return isInRun(facts)
        ? `${data} moves ${gap} before ${reference}, which asks for it ${limitWords(facts)} before: old or new value is taken; let it come sooner, or clock more slowly`
        : `${data} hears ${facts.text('from')} over a way that is ${timeWords(-(facts.number('marginMinPs') ?? 0))} too long for ${gap} between the edges, setup of ${limitWords(facts)} included: shorten the way, put a register into it, or clock more slowly`;
  }
}

/** `0 for 8 and 8 for 0`, with how many more. */
function readWords(facts: Facts): string {
  const [settle, path, setup] = [facts.number('settleMaxPs'), facts.number('pathPs'), facts.number('setupPs')];
  const needed = (settle ?? 0) + (path ?? 0) + (setup ?? 0);
  const also = [...(path ? ['logic'] : []), ...(setup ? ['setup'] : [])];
  const [from, to] = [facts.text('worstFrom', ''), facts.text('worstTo', '')];
  const step = from === '' ? '' : ` (from ${from} to ${to})`;
  const rate = facts.number('readableClockHz');
  const slower = rate === null ? 'leave more time between the two edges' : `clock at less than ${rateWords(rate)}`;
  const enabled = facts.flag('enabled') ? ', where it is enabled' : '';
  const assumed = facts.flag('clockAssumed')
    ? '; the clock is assumed: state its period under clocks in foretick.json'
    : '';
  return `${facts.text('to')} reads ${shortListWords(facts.list('from'), 6)} ${timeWords(facts.number('availablePs') ?? 0)} after the edge that moves them${enabled}, but the last of them is there only after ${timeWords(needed)}${step}${also.length === 0 ? '' : `, ${listWords(also)} included`}, with delay set ${facts.text('delaySet')}${wrongWords(facts)}; ${slower}, stop the count before it is read, or clock all stages from ${facts.text('root', 'one clock')}${assumed}`;
}

function wrongWords(facts: Facts): string {
  const [wrong, total] = [facts.list('wrong'), facts.number('wrongTotal') ?? 0];
  if (wrong.length === 0) return ': a number that was never counted can be read';
  const more = total > wrong.length ? ` and ${total - wrong.length} more` : '';
  return `: it can read ${more === '' ? listWords(wrong) : wrong.join(', ')}${more}`;
}

function releaseWords(facts: Facts): string {
  const [control, clock, gap] = [facts.text('reference'), facts.text('data'), gapWords(facts)];
  return facts.text('check') === 'recovery'
    ? `${control} lets go ${gap} before ${clock}, which asks for ${limitWords(facts)} (recovery): this edge or the next one is the first to sample; let go in step with the clock, early in its period`
    : `${control} lets go ${gap} after ${clock}, which asks that it holds on for ${limitWords(facts)} (removal): the edge may sample after all; let go in step with the clock, later behind its edge`;
}

function pulseWords(facts: Facts): string {
  const [pin, gap, limit] = [facts.text('reference'), gapWords(facts), limitWords(facts)];
  if (facts.text('check') === 'width')
    return `${pin} has a pulse of ${gap} where at least ${limit} is asked for: what it clocks or clears may miss it; make it longer`;
  const most = facts.number('limitTypPs') ?? 0;
  const rate = most === 0 ? '' : `, ${rateWords(1e12 / most)} at most`;
  return `${pin} comes again after ${gap} where at least ${limit} is asked for${rate}: clock it more slowly`;
}

/** Where, how often, by whom it is stated, and on what it rests. */
function circumstances(facts: Facts, { certainty }: Finding): string {
  const stated = facts.text('statedBy') === 'text' ? 'stated in the text' : `of delay set ${facts.text('statedBy')}`;
  const at = facts.number('atPs');
  const times = facts.number('times') ?? 0;
  const met =
    at === null ? '' : `; met at ${timeWords(at)}${times > 1 ? `, ${countWords(times, 'time')} in this run` : ''}`;
  const assumed = facts.flag('clockAssumed')
    ? '; the clock is assumed in what this hangs on: state its period, its high time and its first edge'
    : '';
  const corner =
    isInRun(facts) && certainty === 'possible' && assumed === '' ? '; not with every delay of the set' : '';
  return ` (limit ${stated}${met}${corner}${assumed})`;
}

function isInRun(facts: Facts): boolean {
  return facts.flag('inRun');
}

function gapWords(facts: Facts): string {
  return timeWords(facts.number('gapPs') ?? 0);
}

/** `10 ns`, or `8 to 12 ns` where the limit has a spread. */
function limitWords(facts: Facts): string {
  const [least, most] = [facts.number('limitMinPs') ?? 0, facts.number('limitMaxPs') ?? 0];
  return least === most ? timeWords(most) : `${timeWords(least)} to ${timeWords(most)}`;
}

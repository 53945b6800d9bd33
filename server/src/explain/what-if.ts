// What would be different, in words: first what was asked, then what sequences, chains and findings would be, then each
// signal. Times as told are those of the run that is drawn.

import { shortListWords } from './words';
import { timeWords } from '../text/time-words';

export interface AskedStory {
  readonly about: string;
  readonly what: 'edge' | 'start' | 'clock' | 'delays' | 'held';
  readonly value: string;
}

/** `q[1] on the rising edge of its clock`. */
export function askedWords({ about, value, what }: AskedStory): string {
  switch (what) {
    case 'edge':
      return `${about} on the ${value} edge of its clock`;
    case 'start':
      return `${about} starting at ${value}`;
    case 'clock':
      return `${about} clocked by ${value}`;
    case 'delays':
      return about === '' ? `all with the delays of ${value}` : `${about} with the delays of ${value}`;
    case 'held':
      return `${about} held at ${value}`;
  }
}

/** A signal over time: what it starts at, and its changes, in ps. */
export interface Course {
  readonly name: string;
  readonly start: string;
  readonly at: readonly number[];
  readonly value: readonly string[];
}

/** How one signal would run, in one sentence; null where it would run as it does. Both as far as the shorter run goes. */
export function courseWords(now: Course, then: Course): string | null {
  const { name } = now;
  if (isSame(now, then)) return null;
  if (then.at.length === 0) return `${name} would not change: it would stay at ${shown(then.start)}`;
  if (now.at.length === 0) return `${name} would change, first at ${timeWords(then.at[0])} to ${shown(then.value[0])}`;
  const moved = shiftWords(now, then);
  if (moved !== null) return `${name} ${moved}`;
  if (isInverted(now, then)) return `${name} would be inverted`;
  const begin =
    now.start === then.start ? '' : ` would start at ${shown(then.start)} instead of ${shown(now.start)}, and`;
  const { at, from, to } = firstUnlike(now, then);
  return `${name}${begin} would be ${shown(to)} instead of ${shown(from)} from ${timeWords(at)} on`;
}

/** `would follow 10 ns later`; null where it is not the same changes at other times. */
function shiftWords(now: Course, then: Course): string | null {
  const count = Math.min(now.at.length, then.at.length);
  const isLike =
    now.start === then.start && now.value.slice(0, count).every((value, index) => value === then.value[index]);
  // What the end of the run cuts off is at most a change or two.
  if (!isLike || Math.abs(now.at.length - then.at.length) > 2) return null;
  const shifts = Array.from({ length: count }, (_, index) => then.at[index] - now.at[index]);
  const [least, most] = [Math.min(...shifts), Math.max(...shifts)];
  if (least === most)
    return least === 0 ? null : `would follow ${timeWords(Math.abs(least))} ${least > 0 ? 'later' : 'earlier'}`;
  if (least >= 0) return `would follow later, by up to ${timeWords(most)}`;
  if (most <= 0) return `would follow earlier, by up to ${timeWords(-least)}`;
  return null;
}

function isSame(now: Course, then: Course): boolean {
  const isLike = (left: readonly unknown[], right: readonly unknown[]) =>
    left.length === right.length && left.every((each, index) => each === right[index]);
  return now.start === then.start && isLike(now.at, then.at) && isLike(now.value, then.value);
}

function isInverted(now: Course, then: Course): boolean {
  if (now.start.length !== 1 || now.at.length !== then.at.length) return false;
  const isTurned = (left: string, right: string) => `${left}${right}` === '01' || `${left}${right}` === '10';
  return (
    isTurned(now.start, then.start) &&
    now.at.every((at, index) => at === then.at[index] && isTurned(now.value[index], then.value[index]))
  );
}

function firstUnlike(now: Course, then: Course): { readonly at: number; readonly from: string; readonly to: string } {
  const instants = [...new Set([0, ...now.at, ...then.at])].sort((left, right) => left - right);
  const begin = now.start === then.start ? 0 : 1;
  const unlike = instants.filter((at) => valueAt(now, at) !== valueAt(then, at));
  const at = unlike[Math.min(begin, unlike.length - 1)] ?? 0;
  return { at, from: valueAt(now, at), to: valueAt(then, at) };
}

function valueAt({ at, start, value }: Course, instant: number): string {
  let found = start;
  for (let index = 0; index < at.length && at[index] <= instant; index++) found = value[index];
  return found;
}

/** A number where it is one. */
function shown(digits: string): string {
  return digits.length > 1 && /^[01]+$/.test(digits) ? String(BigInt(`0b${digits}`)) : digits;
}

/** Of a sequence, a chain: `q[3:0]: counts down, modulo 16, instead of counts up, modulo 16`. */
export function insteadWords(name: string, now: string, then: string): string {
  return `${name}: ${then}, instead of ${now}`;
}

export function findingWords(id: string, signals: readonly string[], what: 'gained' | 'lost'): string {
  const about = signals.length === 0 ? '' : ` of ${shortListWords(signals, 3)}`;
  return what === 'gained' ? `would be found: ${id}${about}` : `would not be found any more: ${id}${about}`;
}

export const nothingWords = 'nothing that is drawn or told would be different';

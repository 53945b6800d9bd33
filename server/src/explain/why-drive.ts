// Reasons of the drive in words: why a clock, reset or input is driven as it is, and what of a statement could not be used.

import type { Sentences } from './why-sentence';
import { timeWords } from '../text/time-words';

export const driveSentences: Sentences = {
  // ------------------------------------------------ assumed (definition 35)
  'drive-clock-assumed': ({ name, period }) => `no period of ${name} is stated: ${timeWords(Number(period))} is taken`,
  'drive-reset-assumed': ({ active, name, release }) =>
    `${name} resets while ${active}: active from the start, released at ${timeWords(Number(release))}`,
  'drive-start-assumed': ({ registers, start }) =>
    `${registers === 1 ? '1 register has' : `${registers} registers have`} neither an asynchronous reset nor an initial value: ${start} is taken`,
  'drive-pull-up': ({ name }) => `${name} is driven from both sides: undriven it is taken to be pulled up`,
  'drive-open-drain': ({ name }) =>
    `the design only pulls ${name} low or lets it go: let go, it is taken to be pulled up outside, and nothing else to pull it low`,
  'drive-input-data': ({ name }) => `${name} is data: held at 0`,
  'drive-input-released': ({ name }) => `${name} is driven from both sides: left to the design`,
  'drive-input-named-active': ({ name }) => `${name} is named like something that must be active`,
  'drive-input-named-inactive': ({ name }) => `${name} is named like something that must be inactive`,
  'drive-input-enables': ({ name }) => `at this level ${name} moves, at the other it holds`,
  'drive-input-clears': ({ name }) => `at the other level ${name} is held at a constant`,
  'drive-input-loads': ({ name }) => `at the other level ${name} is loaded`,
  'drive-input-chooses': ({ name }) => `at this level ${name} moves most`,
  'drive-input-direction': ({ name }) => `at either level ${name} moves: 1 is taken as its direction`,
  'drive-input-opens-latch': ({ name }) => `at this level latch ${name} is open`,
  'drive-input-passes-clock': ({ name }) => `at this level gate ${name} passes its clock`,
  // ------------------------------------------------ told by a test bench
  'drive-from-bench': ({ bench, name }) => `the test bench ${bench} drives ${name} so`,
  'drive-bench-cut': ({ at, bench, name }) =>
    `the test bench ${bench} drives ${name}: followed up to ${timeWords(Number(at))}, held from there on`,
  'drive-bench-not-followed': ({ bench, name }) =>
    `what the test bench ${bench} does to ${name} depends on more than its own statements, or is no drive of that kind: not followed`,
  // ------------------------------------------------ told by a value change dump
  'drive-from-dump': ({ dump, name }) => `${name} moves as in ${dump}`,
  'drive-dump-not-followed': ({ dump, name }) =>
    `${name} in ${dump} is no drive of that kind, or has another number of bits: not followed`,
  'drive-dump-absent': ({ dump }) => `dump in foretick.json names ${dump}, which is not there: not followed`,
  'drive-dump-scope': ({ dump, scope }) => `${dump} has no scope ${scope}: not followed`,
  'drive-dump-no-port': ({ dump }) => `${dump} has none of the inputs of this design in any scope: not followed`,
  'drive-dump-unread': ({ dump, line }) =>
    `line ${line} of ${dump} is not as IEEE 1364-2005 clause 18 has it: read up to there`,
  'drive-dump-limit': ({ at, dump, limit }) =>
    `${dump} has more changes of inputs than the limit changes (${limit}): followed up to ${timeWords(Number(at))}`,
  'drive-dump-extended': ({ dump }) =>
    `${dump} is an extended value change dump, which says what each side drives: not followed; a four-state dump is read`,
  // ------------------------------------------------ stated, and not usable
  'drive-clock-undriven': ({ name }) => `nothing is clocked by ${name}, and it is no input`,
  'drive-unknown-name': ({ list, name }) =>
    `${list} in foretick.json names ${name}, which is no ${listWord(list)} of this design`,
  'drive-period-refused': ({ name, written }) => `${written} is no period for ${name}: it must be above 0`,
  'drive-high-refused': ({ name, written }) =>
    `${written} ps high is not possible for ${name}: it must be above 0 and below the period`,
  'drive-phase-refused': ({ name, written }) =>
    `${written} ps is no phase for ${name}: it must be a whole number from 0 on`,
  'drive-reset-periods-refused': ({ name, written }) => `${written} is no number of periods for ${name}`,
  'drive-input-taken': ({ name }) =>
    `inputs in foretick.json states ${name}, which clocks or resets there drives already: not followed`,
  'drive-input-refused': ({ name, width, written }) =>
    written === 'pulse' || written === 'button' || written === 'serial'
      ? `a ${written === 'serial' ? 'serial line' : written} moves one bit, and ${name} has ${width}: state levels`
      : `${written} is no value of ${width === 1 ? '1 bit' : `${width} bits`} for ${name}`,
};

function listWord(list: string | number | undefined): string {
  return list === 'clocks' ? 'clock' : list === 'resets' ? 'reset' : 'input';
}

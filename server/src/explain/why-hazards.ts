// Reasons of the findings in words: what stands at each related place.

import type { Sentences } from './why-sentence';
import { stretchNames } from './vectors';
import { shortListWords } from './words';

type Argument = Parameters<Sentences[string]>[0][string];

export const hazardSentences: Sentences = {
  'chain-stage': ({ register, stage }) => chainWords(String(register).split(', '), Number(stage)),
  'derived-from': ({ clock, register }) =>
    clock === register ? `${clock} is declared here` : `${clock} is made by ${listed(register)}`,
  'clocks-register': ({ clock, register }) => `${clock} clocks ${listed(register)}`,
  'unclear-gate': ({ clock }) => `${clock} is made here`,
  'crossing-source': ({ name }) => `${listed(name)} ${isAre(name)} sampled by the sending clock here`,
  'crossing-arrives': ({ register }) => `${listed(register)} brings it over`,
  'input-sampled': ({ port, register }) => `${port} is sampled by ${listed(register)} here`,
  'reset-launched': ({ register, reset }) => `${reset} comes from ${listed(register)}`,
  'reset-decoded-from': ({ register, reset }) => `${reset} is decoded from ${listed(register)}`,
  'transfer-launch': ({ from }) => `${from} changes here`,
  'transfer-capture': ({ to }) => `${to} samples at this edge`,
  'reset-not-there': ({ register, reset }) => `${reset} resets others of the process, not ${listed(register)}`,
  'clock-made': ({ clock }) => `${clock} comes from here`,
  'reset-here': ({ register, reset }) => `${reset} resets ${listed(register)} here`,
  'latch-declared': ({ latch }) => `${latch} is declared here`,
  'loop-member': ({ signal }) => `${listed(signal)} ${isAre(signal)} part of the loop`,
  'sampled-here': ({ register }) => `${register} is sampled here`,
  'read-unlisted': ({ signal }) => `${signal} is read here`,
  'hazard-end-clock': ({ end }) => `it clocks ${listed(end)}`,
  'hazard-end-reset': ({ end }) => `it resets ${listed(end)}`,
  'hazard-end-latch': ({ end }) => `it opens ${listed(end)}`,
  'hazard-end-tristate': ({ end }) => `it enables ${listed(end)}`,
  'hazard-end-output': ({ end }) => `it leaves by ${listed(end)}`,
  'hazard-end-data': ({ end }) => `it is sampled by ${listed(end)} of another clock domain`,
  'written-before': ({ signal }) => `${signal} is written here, before it in the process`,
  'also-driven': ({ signal }) => `${signal} is driven here too`,
  'mixed-both-kinds': ({ signal }) => `${signal} is assigned by = here`,
  'mixed-nonblocking-in-level-process': ({ signal }) => `${signal} is assigned by <= here`,
  'mixed-blocking-read-elsewhere': ({ signal }) => `${signal} is sampled here at the same edge`,
  // ------------------------------------------------ glitches: verdicts
  'glitch-fixed-order': ({ delaySet }) => `the changes come in one order, whatever the delays of ${delaySet}`,
  'glitch-open-order': ({ delaySet }) => `the order of the changes is not fixed by delay set ${delaySet}`,
  'glitch-unknown-structure': () =>
    'it comes out of an operator whose inner structure the text does not give, so any order inside is possible',
  'glitch-unknown-bits': () => 'it depends on a bit whose value is not known',
  'glitch-orders-untried': ({ delaySet }) =>
    `there are more orders than were tried; the one shown can happen with delay set ${delaySet}`,
  'glitch-foreign-bits': ({ clock, delaySet }) =>
    `the order is fixed with delay set ${delaySet}, but whether the state is reached depends on bits of ${clock}`,
  'glitch-unfollowed-bits': ({ bits }) =>
    `there are too many states to follow them all: it can happen where ${bits} may stand at any level`,
  // ------------------------------------------------ glitches: places
  'glitch-also': ({ signal }) => `${listed(signal)} can glitch too`,
  'glitch-source': ({ register, signal }) => `${signal} is decoded from ${listed(register)}`,
  'glitch-end-clock': ({ end, signal }) => `${signal} clocks ${listed(end)} here`,
  'glitch-end-reset': ({ end, signal }) => `${signal} resets ${listed(end)} here`,
  'glitch-end-latch': ({ end, signal }) => `${signal} opens ${listed(end)} here`,
  'glitch-end-memory': ({ end, signal }) => `${signal} writes memory ${listed(end)} here`,
  'glitch-end-tristate': ({ end, signal }) => `${signal} enables tri-state ${listed(end)} here`,
  'glitch-end-crossing': ({ end, signal }) => `${signal} is sampled by ${listed(end)} of another clock domain here`,
  'glitch-end-output': ({ end, signal }) => `${signal} leaves by port ${listed(end)}`,
  'glitch-end-data': ({ end, signal }) => `${signal} is data of ${listed(end)}`,
  'glitch-end-black-box': ({ end, signal }) => `${signal} goes into ${listed(end)}, which is not given`,
};

/** What stands at one place comes as one text, its names after commas. */
function namesOf(names: Argument): readonly string[] {
  return stretchNames(String(names).split(', '));
}

function listed(names: Argument): string {
  return shortListWords(namesOf(names), 6);
}

function isAre(names: Argument): string {
  return namesOf(names).length === 1 ? 'is' : 'are';
}

/** Stages of one line follow one another, from the first on. */
function chainWords(registers: readonly string[], first: number): string {
  const names = shortListWords(registers, 6);
  const last = first + registers.length - 1;
  return first === last ? `${names} is stage ${first}` : `${names} are stages ${first} to ${last}`;
}

// Reasons of the clock network in words: why a gate is sound or not, and what protects a crossing.

import type { Sentences } from './why-sentence';

export const clockSentences: Sentences = {
  // ------------------------------------------------ gates (definition 9)
  'control-changes-while-blocked': ({ clock, control, level }) =>
    `${control} changes only while ${clock} is ${levelWords(level)}, which blocks the gate`,
  'control-changes-while-passing': ({ clock, control, level }) =>
    `${control} changes while ${clock} is ${passingWords(level)}: the gate passes then, and cuts or adds a pulse`,
  'control-foreign': ({ clock, control }) =>
    `${control} comes from another clock domain and may change at any time of ${clock}`,
  'control-phase-unknown': ({ clock, control }) =>
    `${control} is launched by another stage of the divider: when it changes within a period of ${clock} is not fixed by structure`,
  'control-from-port': ({ clock, control }) => `${control} depends on a port, which may change at any time of ${clock}`,
  'control-from-black-box': ({ clock, control }) =>
    `${control} depends on a module that is not given and may change at any time of ${clock}`,
  'control-constant': ({ control }) => `${control} never changes`,
  'control-stated-static': ({ control }) => `${control} is stated not to change while it matters`,
  'gate-never-blocks': ({ clock, control }) =>
    `no level of ${clock} blocks the gate, so every change of ${control} is seen behind it`,
  'latch-open-while-blocked': ({ clock, control, level }) =>
    `the latch behind ${control} is open only while ${clock} is ${levelWords(level)}, which blocks the gate`,
  'latch-open-while-passing': ({ clock, control, level }) =>
    `the latch behind ${control} is open while ${clock} is ${passingWords(level)}: the gate passes then`,
  'latch-in-clock-path': ({ clock, control }) =>
    `a latch passes ${clock} on and moves with its data ${control} while it is open`,
  // ------------------------------------------------ switches
  'multiplexer-select-unguarded': ({ control }) =>
    `${control} switches at once, whatever level the two clocks have: a pulse may be cut short`,
  'multiplexer-select-from-port': ({ control }) => `${control} comes from a port and may switch at any time`,
  'multiplexer-select-constant': ({ control }) => `${control} never changes, so the clock is never switched`,
  'clocks-joined': () => 'two clocks meet in one gate and nothing selects between them',
  'enables-cross-guarded': () => 'each clock is switched off before another is switched on, while it is blocked',
  'enables-not-guarded': ({ control, guard }) => `${control} does not wait until ${guard} is off`,
  'branch-blocks-switch': ({ control }) => `switched off by ${control}, this branch holds the whole switch still`,
  // ------------------------------------------------ crossings
  'sources-stated-static': () => 'its sources are stated not to change while it matters',
  'flops-in-a-row': ({ depth }) => `${depth} flip-flops in a row sample it`,
  'logic-before-first-flop': () => 'logic stands before the first flip-flop that samples it',
  'read-after-one-flop': () => 'what follows reads it after one flip-flop only',
  'one-bit-at-a-time': () => 'only one of its bits changes at a time, whatever its inputs do',
  'one-bit-at-a-time-so-far': () =>
    'only one of its bits changes at a time in every state that was followed; there are more, so it is assumed',
  'sampled-under-enable': ({ enable }) =>
    `it is sampled only when ${enable} says so, which follows a synchronized bit of the sending clock`,
  'sender-waits-for-answer': ({ answer }) => `the sender waits for ${answer}, which comes back synchronized`,
  'sender-assumed-to-hold': () => 'that the sender keeps it still until then is assumed',
  'sender-turns-over': ({ sender }) => `${sender} turns over for every event`,
  'change-detected': ({ last, later }) =>
    `${last} is compared with ${later}, one period older: what counts is the change`,
  'address-follows-pointer': ({ address, pointer }) =>
    `a word of a memory, read at ${address}, which moves only after ${pointer} has come over through flip-flops in a row`,
  'pointer-one-bit-at-a-time': ({ pointer }) => `${pointer} changes in one bit at a time, whatever its inputs do`,
  'pointer-one-bit-at-a-time-so-far': ({ pointer }) =>
    `${pointer} changes in one bit at a time in every state that was followed; there are more, so it is assumed`,
  'several-bits': ({ bits }) => `${bits} bits cross together and may arrive in different periods`,
};

function levelWords(level: string | number | undefined): string {
  return level === 1 ? 'high' : level === 0 ? 'low' : 'at one fixed level';
}

/** The level at which the gate passes: the other one. */
function passingWords(blocking: string | number | undefined): string {
  return blocking === 1 ? 'low' : blocking === 0 ? 'high' : 'at either level';
}

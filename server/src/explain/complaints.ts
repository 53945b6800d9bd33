// A sentence for every reason that reading and elaboration can give. The compiler refuses a reason without one.
// Sentences say what was found, which rule it breaks where a standard has one, and what to do where that is known.

import { type LimitName, limitDefaults } from '../budget';
import type { ApartReason, ElaborationReasons } from '../elaborate/reasons';
import type { GlitchLimitReason } from '../hazards/reasons-glitch';
import type { ReasonTable } from '../syntax/reasons';
import type { Complaint, ReasonArguments } from '../text/complaint';
import { impossible } from '../text/impossible';

/** The two stages share `construct` and `limit`; a limit met while elaborating also says at what. */
type Reasons = Omit<ReasonTable & ElaborationReasons, 'limit'> & {
  readonly limit: ReasonTable['limit'] & { readonly name?: string };
};

/** Limits that the search for glitches met: about a signal, of which not everything was looked at. */
type GlitchLimits = Readonly<Record<GlitchLimitReason, { readonly signal: string; readonly limit: number }>>;

const apartWords: Readonly<Record<ApartReason, string>> = {
  clock: 'at edges of different clocks',
  reset: 'and one of them resets it',
  delay: 'after different delays',
  blocking: 'and one of them with =',
  count: 'and they are too many to be its ports',
};

type Sentences = {
  readonly [Reason in keyof (Reasons & GlitchLimits)]: (args: (Reasons & GlitchLimits)[Reason]) => string;
};

/** The sentence for a complaint, or for one of its related places. */
export function complaintWords({ reason, args }: Pick<Complaint, 'reason' | 'args'>): string {
  const sentence = (complaintSentences as Readonly<Record<string, (args: never) => string>>)[reason];
  if (sentence === undefined) return impossible(`no sentence for ${reason}`);
  return sentence(args as ReasonArguments as never).replace(longWord, shortened);
}

/** A name may be a megabyte long, and a sentence is to be read. */
const longWord = /[^\s"]{121,}/g;

function shortened(word: string): string {
  return `${word.slice(0, 120)}…`;
}

/** At the place in a macro's definition whose text, where the macro is used, has a finding. */
export function macroTextWords(macro: string): string {
  return `this text of macro ${macro} is what it is about`;
}

/** What each limit counts, as the object of `more than`. */
const limitWords: Readonly<Record<LimitName, string>> = {
  includeDepth: 'nested includes',
  macroDepth: 'nested macro uses',
  expandedCharacters: 'characters after macro expansion',
  nesting: 'levels of nesting',
  depth: 'levels of instances',
  instances: 'instances',
  nodes: 'nodes',
  unroll: 'turns of one loop',
  width: 'bits',
  memoryWords: 'words in one memory',
  period: 'settled steps',
  cycles: 'root periods',
  states: 'states of one group of registers',
  changes: 'changes',
  instantSteps: 'steps inside one instant',
  complaints: 'findings of reading in one file',
};

/** Every limit is a setting; nesting alone cannot be raised above its default, which is what reading can bear. */
export function limitSentence(limit: LimitName, value: number, name: string | null): string {
  const where = name === null || name === '' ? '' : `${name}: `;
  const canRaise = limit !== 'nesting' || value < limitDefaults.nesting;
  const cure = canRaise ? `limits.${limit} in foretick.json raises this` : 'write it with fewer levels';
  return `${where}more than ${value} ${limitWords[limit]}, the rest is not read; ${cure}`;
}

export const complaintSentences: Sentences = {
  // ------------------------------------------------ syntax
  unexpected: ({ text }) => `"${text}" is not expected here`,
  'bad-character': () => 'a character here is not in UTF-8: save the file as UTF-8',
  'unexpected-end': () => 'the text ends before this is whole',
  missing: ({ what }) => `${what} is missing here`,
  unclosed: ({ what, expected }) => `${what} is never closed: ${expected} is missing`,
  'bad-number': ({ text }) => `"${text}" is not a number: digits must fit the base (IEEE 1364-2005 3.5.1)`,
  'zero-size': ({ text }) => `"${text}" has a size of zero bits (IEEE 1364-2005 3.5.1)`,
  'bad-directive': ({ directive }) => `${directive} cannot be read here`,
  'macro-arguments': ({ name, expected, found }) => `macro ${name} takes ${expected} arguments, ${found} are given`,
  'no-text': () =>
    'this file is no text in UTF-8, and is not read: save it as UTF-8, or give the file that holds the source',
  'recursive-macro': ({ name }) => `macro ${name} leads back to itself (IEEE 1364-2005 19.3.1)`,
  'recursive-include': ({ path }) => `"${path}" includes itself`,
  // ------------------------------------------------ unsupported
  construct: ({ what }) => `${what} is not read: what depends on it is unknown`,
  directive: ({ directive }) => `${directive} is not obeyed`,
  limit: ({ limit, value, name }) => limitSentence(limit, value, name ?? null),
  // ------------------------------------------------ unresolved-name
  'unknown-macro': ({ name }) => `macro ${name} is not defined: its \`define must be read before this line`,
  'late-macro': ({ name, path, line }) =>
    `macro ${name} is defined only later, in ${path} at line ${line}: its \`define must be read before this line`,
  'removed-macro': ({ name }) => `macro ${name} is not defined any more: a directive before this line removes it`,
  'missing-include': ({ path }) =>
    `"${path}" is not found: name its folder with --include or includes in foretick.json`,
  'undeclared-name': ({ name }) => `${name} is not declared`,
  'not-a-type': ({ name }) => `${name} is no type`,
  'not-a-value': ({ name }) => `${name} has no value that could be read here`,
  'pattern-key': ({ name }) => `${name} names no part of what the pattern stands for`,
  'pattern-missing': ({ name }) => `the pattern gives ${name} no value: name it, or end with default:`,
  'pattern-count': ({ given, parts }) => `the pattern has ${given} values where ${parts} are needed`,
  'not-assignable': ({ name }) => `${name} cannot be assigned here`,
  'unknown-port': ({ module, port }) => `module ${module} has no port ${port}`,
  'not-a-subroutine': ({ name, what }) => `${name} is no ${what}`,
  'argument-count': ({ name, given, ports }) => `${given} arguments are given, ${name} has ${ports}`,
  'too-many-ports': ({ module, given, ports }) => `${given} connections are given, module ${module} has ${ports} ports`,
  'port-connected-twice': ({ module, port }) => `port ${port} of module ${module} is connected twice`,
  'unknown-parameter': ({ module, parameter }) => `module ${module} has no parameter ${parameter}`,
  'too-many-parameters': ({ module, given, parameters }) =>
    `${given} parameters are given, module ${module} has ${parameters}`,
  'port-not-declared': ({ module, port }) =>
    `port ${port} stands in the header of module ${module} without a declaration`,
  'unknown-top': ({ module }) => `no module is called ${module}`,
  'unknown-package': ({ package: name }) => `package ${name} is not among the files: what comes from it is unknown`,
  'not-in-package': ({ package: from, name }) => `${from} declares no ${name}`,
  'ambiguous-import': ({ name, packages }) =>
    `${name} may come from any of ${packages}, each imported whole: write the package before the name`,
  'interface-not-given': ({ interface: name }) => `interface ${name} is not among the files: what it holds is unknown`,
  'interface-unconnected': ({ port, interface: name }) =>
    `port ${port} is an interface, and no ${name} is connected to it`,
  'not-an-interface': ({ port, interface: name }) => `port ${port} takes ${name}, which this is not`,
  'unknown-modport': ({ interface: name, modport }) => `interface ${name} has no modport ${modport}`,
  'not-in-modport': ({ modport, name }) => `modport ${modport} does not hold ${name}`,
  'import-cycle': ({ package: name }) => `package ${name} imports itself, at once or through others`,
  'missing-data-file': ({ path }) =>
    `"${path}" is not found beside this file or in an include folder: the words that it would load start unknown`,
  // ------------------------------------------------ unresolved-module
  'module-not-given': ({ module }) =>
    `module ${module} is not among the files: it is taken as a black box and its outputs as unknown`,
  // ------------------------------------------------ limit-reached
  'large-memory': ({ name, words, width, bits }) =>
    `${name} has ${words} words of ${width} bits, and an array of nets, or one inside a function or task, is followed up to ${bits} bits: what is read from it is unknown`,
  'cyclic-parameter': ({ name }) => `the value of parameter ${name} depends on itself`,
  'recursive-module': ({ module }) => `module ${module} contains itself without end`,
  'glitch-states-limit': ({ limit, signal }) =>
    `glitches of ${signal}: more than ${limit} states are reachable, the rest is not looked at`,
  'glitch-inputs-limit': ({ limit, signal }) =>
    `glitches of ${signal}: more inputs than could be tried in every way; ${limit} ways were`,
  'glitch-starts-limit': ({ limit, signal }) =>
    `glitches of ${signal}: more registers without a start value than could be tried in every way; ${limit} states were`,
  'glitch-transitions-limit': ({ limit, signal }) =>
    `glitches of ${signal}: more than ${limit} transitions, the rest is not looked at`,
  'glitch-orders-limit': ({ limit, signal }) =>
    `glitches of ${signal}: more than ${limit} orders of one transition, none tried so far was wrong`,
  // ------------------------------------------------ unsupported, while elaborating
  'modport-input': ({ name, modport }) =>
    `modport ${modport} makes ${name} an input, which this module drives: it is taken as an output`,
  'net-assigned-in-process': ({ name, type }) =>
    `${name} is a ${type}, which a process cannot assign: declare it as reg or logic`,
  'declared-twice': ({ name }) => `${name} is declared twice: the first declaration counts`,
  'unit-given-twice': ({ what, name }) => `${what} ${name} is given twice: the first one counts`,
  'module-given-twice': ({ module }) => `module ${module} is given twice: the first one counts`,
  'not-constant': ({ what }) => `${what} must be constant here`,
  'unknown-constant': ({ what }) => `${what} has unknown bits, which a constant must not have here`,
  'range-reversed': ({ name }) => `the range of ${name} runs against its declaration`,
  'unsized-in-concatenation': ({ text }) =>
    `"${text}" has no size, which a concatenation needs (IEEE 1364-2005 5.1.14): taken as 32 bits`,
  'zero-replication': ({ text }) => `"${text}" repeats zero times and stands alone (IEEE 1364-2005 5.1.14)`,
  'case-equality': ({ text }) => `"${text}" compares x and z too, which no hardware can: read as == or !=`,
  'label-never-matches': ({ text }) => `"${text}" never matches: hardware has no x or z to compare with`,
  'bad-override': ({ parameter, text }) => `"${text}" is no value for parameter ${parameter}`,
  'terminal-count': ({ gate, given }) => `gate ${gate} does not have ${given} terminals`,
  'terminal-width': ({ gate, width }) => `a terminal of gate ${gate} is one bit, not ${width}`,
  'instance-array-width': ({ name, width, expected }) =>
    `a connection of ${name} has ${width} bits where ${expected} are needed`,
  'negative-delay': ({ text }) => `"${text}" is a delay below zero: taken as zero`,
  'ignored-delay': ({ text }) => `delay "${text}" is not followed here`,
  'mixed-delays': ({ name }) => `${name} is assigned with different delays: none is followed`,
  'no-time-control': ({ flavor }) => `${flavor} without an event or delay would run without end`,
  'stimulus-only': ({ name }) =>
    `${name} is driven by statements in time, which only a test bench can do: its value is unknown`,
  'test-bench': ({ name }) =>
    `${name} is a test bench: what its statements do in time is not followed; preview the module that it tests`,
  'loop-not-constant': ({ text }) => `loop "${text}" does not end after a constant number of turns`,
  'mixed-partial-write': ({ name }) => `parts of ${name} are written here and all of it elsewhere in the same process`,
  'bad-data-file': ({ path, text }) =>
    `"${text}" in "${path}" is no number of this base: it and what follows are not loaded`,
  'recursive-static': ({ name, what }) =>
    `${what} ${name} calls itself and is not automatic: its calls would share their variables (IEEE 1364-2005 ${what === 'task' ? '10.2.1' : '10.4.1'})`,
  'memory-written-apart': ({ name, why }) =>
    `several processes write ${name} ${apartWords[why] ?? why}: what it holds is unknown; write it in one process`,
  'memory-without-clock': ({ name }) =>
    `${name} is too large to be kept in latches: what it holds is unknown; write it at an edge of a clock`,
  'kept-variable': ({ name }) =>
    `${name} is read before this call has given it a value, so it is what an earlier call left, which is not followed: declare the function or task automatic, or assign ${name} first`,
  'unset-result': ({ name }) =>
    `some path through function ${name} leaves its result without a value: read as x there; assign a default first`,
  'assigned-outside-function': ({ name, function: called }) =>
    `function ${called} assigns ${name}, which is not its own: what it gives is unknown`,
  // ------------------------------------------------ unsupported: no register can be told (IEEE 1364.1)
  'clock-edges-mixed-with-levels': ({ list }) =>
    `no register: the list "${list}" mixes edges and levels (IEEE 1364.1-2002 5.2.2); keep the clock and the asynchronous resets, each with its edge`,
  'clock-both-edges': ({ signal }) =>
    `no register: both edges of ${signal} stand in the list, and no flip-flop has both`,
  'clock-several-untested': ({ signals }) =>
    `no register: ${signals} stand in the list and no "if" tests them, so several could be the clock`,
  'clock-none-untested': ({ signals }) =>
    `no register: every signal of the list (${signals}) is tested, so none is left to be the clock`,
  'clock-test-not-accepted': ({ test, signals }) =>
    `no register: the test "${test}" is not a plain test of ${signals}, so no asynchronous control can be told`,
  'clock-test-against-edge': ({ test, signal, edge }) =>
    `no register: "${test}" tests ${signal} against its edge, which is ${edge}`,
  'clock-written-beside-chain': ({ name }) =>
    `no register: ${name} is also written beside the if/else chain of the asynchronous controls`,
};

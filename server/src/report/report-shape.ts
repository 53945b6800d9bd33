// The shape of the whole report, key by key in the order in which they are written. The types in `report.ts` say the
// same; the compiler and a test hold the two together. Facts per finding id stand in `finding-facts.ts`.

import { whatIfKinds } from './asked';
import { comparedKinds } from './comparison';
import { choice, count, either, flag, list, nullable, number, object, patterned, record, text, whole } from './shape';

const span = object(
  { file: text(), line: count(), column: count(), endLine: count(), endColumn: count() },
  'one-based, end exclusive, UTF-16 columns',
);
const fraction = patterned('^[0-9]+/[1-9][0-9]*$', 'an exact fraction p/q in lowest terms');
const active = choice(['high', 'low']);
const edge = choice(['rising', 'falling']);
const source = choice(['given', 'text', 'inferred', 'name', 'setting'], 'where it comes from');
const triple = object({ min: whole(), typ: whole(), max: whole() }, 'ps');
const control = object({ signal: text(), active });
const loadingControl = object({
  signal: text(),
  active,
  value: text('binary digits of the slice, or the text of the expression'),
});
const signalValue = object({ signal: text(), value: text() });
const pass = object({ at: whole('ps after the root edge'), value: text() });
const total = count('length before shortening');

const drive = object({
  clocks: list(
    object({
      signal: text(),
      period: either([count(), fraction], 'ps'),
      high: count('ps'),
      phase: count('ps'),
      source,
      highSource: source,
      phaseSource: source,
    }),
  ),
  resets: list(
    object({ signal: text(), active, periods: number(), source, activeSource: source, periodsSource: source }),
  ),
  inputs: list(
    object({
      signal: text(),
      value: text('binary digits; of an input that moves, at time 0'),
      source,
      moves: nullable(
        object({
          changes: list(object({ at: count('ps'), value: text('binary digits') })),
          changesTotal: count(),
          everyPs: nullable(count('ps after which all changes come again')),
        }),
      ),
    }),
  ),
});

const delaySet = object({
  name: text(),
  sheet: nullable(text()),
  conditions: nullable(text()),
  source,
  spread: flag('false when every minimum equals its maximum'),
  overrides: list(
    object({
      name: text('instance, signal or bits of one'),
      sheet: nullable(text()),
      conditions: nullable(text()),
      entries: list(text(), 'which entries of a delay set are stated; the rest is as in the set'),
      registers: count('that take them'),
      latches: count(),
      operators: count(),
    }),
    'what has delays of its own',
  ),
});

const assumption = object({ about: text(), value: text(), source, reason: text(), span: nullable(span) });

const coverage = object({
  unrooted: list(text(), 'registers without one root'),
  blackBoxes: list(object({ instance: text(), module: text(), span })),
  skipped: list(object({ message: text(), span }), 'constructs that were not read'),
  checked: count('crossings and transfers judged'),
  assumed: count('crossings judged under an assumption'),
  notChecked: count('crossings and transfers not judged'),
  limits: list(object({ name: text(), limit: count(), span: nullable(span) })),
});

const signal = object({ name: text(), width: count(), signed: flag(), span });

const register = object({
  name: text(),
  signal: text(),
  msb: whole(),
  lsb: whole(),
  module: text(),
  clock: object({ signal: text('canonical name'), written: text('as in the text'), edge }),
  root: nullable(object({ signal: text(), edge: choice(['rising', 'falling', 'either']) })),
  roots: list(text()),
  domain: nullable(text()),
  stage: count(),
  asynchronous: list(loadingControl, 'in priority order'),
  synchronous: list(loadingControl, 'in priority order'),
  enable: nullable(control),
  enables: list(object({ msb: whole(), lsb: whole(), text: text(), span })),
  updateEvery: nullable(fraction),
  start: text('binary digits, x unknown'),
  startFrom: choice(['reset', 'text', 'assumed']),
  constant: flag(),
  arrival: nullable(triple),
  settles: nullable(
    object(
      { rise: nullable(triple), fall: nullable(triple), min: whole(), typ: whole(), max: whole() },
      'ps after the root edge',
    ),
  ),
  ratio: nullable(fraction),
  duty: nullable(fraction),
  bitRatios: list(nullable(fraction), 'of a vector, most significant bit first'),
  bitDuties: list(nullable(fraction), 'of a vector, most significant bit first'),
  span,
  sampleSpan: span,
});

const latch = object({
  name: text(),
  gate: nullable(control),
  root: nullable(text()),
  domain: nullable(text()),
  asynchronous: list(loadingControl, 'in priority order'),
  intended: flag(),
  span,
});

const memory = object({
  name: text(),
  words: count(),
  width: count(),
  ports: list(
    object({
      kind: choice(['read', 'write']),
      clock: nullable(text()),
      edge: nullable(edge),
      domain: nullable(text()),
      synchronous: flag(),
    }),
  ),
  span,
});

const clock = object({
  signal: text(),
  kind: choice(['root', 'inverted', 'derived', 'gated', 'switched', 'shared']),
  from: list(text()),
  ratio: nullable(fraction),
  duty: nullable(fraction),
  uniform: nullable(flag()),
  pattern: list(count(), 'root edges within one repetition at which it rises'),
  patternTotal: total,
  hertz: nullable(number('at the drive')),
  sound: nullable(flag('of gated and switched clocks')),
  why: nullable(text()),
  domain: nullable(text()),
  registers: count('how many it clocks'),
  span,
});

const domain = object({
  name: text(),
  roots: list(text()),
  registers: count(),
  related: list(text()),
  leastPeriod: nullable(object({ ps: number(), from: text(), to: text() })),
  why: nullable(text()),
  span,
});

const chain = object({
  root: nullable(text()),
  registers: list(text()),
  settle: nullable(triple),
  skew: nullable(triple),
  worst: nullable(object({ from: text(), to: text() })),
  maxClockHz: nullable(number()),
  readableClockHz: nullable(number()),
  toggleClockHz: nullable(number()),
  why: nullable(text()),
  span,
});

const sequence = object({
  registers: list(text(), 'most significant first'),
  start: text(),
  leadIn: list(text()),
  leadInTotal: total,
  values: list(text(), 'settled readings, one per active edge of the stage-1 clock'),
  valuesTotal: total,
  period: nullable(count('in those edges')),
  kind: choice(['up', 'down', 'gray', 'ring', 'johnson', 'lfsr', 'other']),
  modulus: nullable(count()),
  polynomial: list(
    whole(),
    'of a linear feedback shift register: exponents of its feedback polynomial, largest first: the bit that leaves is the sum of those that left as many steps before (but for the 0)',
  ),
  trapped: list(text()),
  trappedTotal: total,
  explored: flag('whether every unused state was followed'),
  while: list(signalValue, 'inputs held'),
  steps: list(object({ from: text(), to: text(), passes: list(pass) })),
  stepsTotal: total,
  why: nullable(text('why the period is unproven')),
  span,
});

const transfer = object({
  from: text(),
  to: text(),
  pair: object({ launch: whole(), capture: whole() }),
  skew: triple,
  setup: triple,
  hold: triple,
  distance: number('ps'),
  span,
});

const crossing = object({
  from: text(),
  sources: list(text()),
  to: text(),
  fromDomain: text(),
  toDomain: text(),
  bits: count(),
  synchronizer: choice(['none', 'one-flop', 'two-flop', 'three-flop', 'gray', 'toggle', 'handshake', 'enable']),
  depth: count(),
  status: choice(['bare', 'protected', 'assumed', 'accepted']),
  evidence: list(text()),
  mtbfLog10Seconds: nullable(number()),
  span,
});

const reset = object({
  signal: text(),
  active,
  kind: choice(['asynchronous', 'synchronous']),
  release: choice(['synchronized', 'raw']),
  registers: count(),
  domains: list(text()),
  span,
});

const transition = object({
  from: text(),
  to: text(),
  passes: list(pass),
  pulse: triple,
  witness: list(object({ period: count(), inputs: list(signalValue) })),
});

const glitch = object({
  signal: text(),
  certainty: choice(['certain', 'possible']),
  registers: list(text(), 'bits, most significant first'),
  transitions: list(transition),
  transitionsTotal: total,
  ends: list(
    object({
      kind: choice(['clock', 'reset', 'latch', 'memory', 'tristate', 'crossing', 'output', 'data', 'black-box']),
      signal: text(),
      harmless: flag(),
      harmlessAbovePs: nullable(number()),
    }),
  ),
  harmless: flag(),
  why: text(),
  span,
});

const output = object({
  name: text(),
  form: choice(['registered', 'decoded', 'through', 'mixed', 'clock']),
  glitchFree: nullable(flag()),
  span,
});

const length = object({ periods: fraction, seconds: number() });
const rate = object({
  signal: text(),
  period: nullable(length),
  high: nullable(length),
  wished: nullable(number('Hz')),
  error: nullable(number('part of the wish: (found - wished) / wished')),
  why: nullable(text('why no period is proven')),
  span,
});

export const findingIds = [
  'derived-clock',
  'ripple-chain',
  'gated-clock',
  'switched-clock',
  'opposite-edges',
  'clock-as-data',
  'skewed-transfer',
  'unclear-clock',
  'setup-hold',
  'recovery-removal',
  'narrow-pulse',
  'read-while-settling',
  'bare-crossing',
  'bus-crossing',
  'logic-before-synchronizer',
  'rejoined-crossing',
  'short-pulse-crossing',
  'raw-input',
  'reset-release',
  'reset-crossing',
  'decoded-reset',
  'reset-in-enable',
  'decoded-glitch',
  'structural-hazard',
  'glitch-into-clock',
  'glitch-into-reset',
  'glitch-into-latch',
  'unintended-latch',
  'combinational-loop',
  'unknown-start',
  'trap-state',
  'mixed-assignment',
  'stale-sensitivity',
  'shared-driver',
  'text-race',
  'syntax',
  'unsupported',
  'limit-reached',
  'unresolved-name',
  'unresolved-module',
] as const;

const fact = either([text(), number(), flag(), nullable(text()), list(text()), list(number())]);

const finding = object({
  id: choice(findingIds),
  certainty: nullable(choice(['certain', 'possible'])),
  severity: choice(['error', 'warning', 'information', 'hint']),
  message: text(),
  signals: list(text(), 'full names of all it is about'),
  instances: list(text()),
  span,
  related: list(object({ message: text(), span })),
  facts: record(fact),
  accepted: nullable(object({ reason: text() })),
});

const whatIf = object({
  asked: list(
    object({
      about: text('full name; empty: all'),
      what: choice(whatIfKinds),
      value: text(),
      words: text(),
    }),
  ),
  refused: nullable(text('why the design cannot be asked so')),
  answer: list(text(), 'in sentences'),
  changes: list(
    object({
      kind: choice(comparedKinds),
      what: choice(['gained', 'lost', 'altered']),
      name: text(),
      fields: list(object({ field: text(), from: text('as JSON'), to: text('as JSON') })),
    }),
  ),
});

export const reportShape = object({
  foretick: text('version of the tool'),
  schema: text('version of this form'),
  top: nullable(text()),
  otherTops: list(text()),
  parameters: record(text()),
  files: list(text()),
  drive,
  delaySet,
  assumptions: list(assumption),
  coverage,
  signals: list(signal),
  registers: list(register),
  latches: list(latch),
  memories: list(memory),
  clocks: list(clock),
  domains: list(domain),
  chains: list(chain),
  counts: list(sequence),
  transfers: list(transfer),
  crossings: list(crossing),
  resets: list(reset),
  glitches: list(glitch),
  outputs: list(output),
  rates: list(rate),
  findings: list(finding),
  whatIf: nullable(whatIf),
});

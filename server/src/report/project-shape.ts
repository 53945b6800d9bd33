// The shape of `foretick.json`: what a person knows and the text does not say. Every key is optional; a key that is not
// named here is refused. Published as a JSON Schema, so that an editor completes and explains the file.

import { limitDefaults } from '../budget';
import {
  choice,
  count,
  either,
  type Fields,
  list,
  nullable,
  number,
  object,
  partial,
  patterned,
  positive,
  record,
  type Shape,
  text,
} from './shape';
import { logicClasses } from '../delays/delay-set';

const active = choice(['high', 'low'], 'the level that resets');
const fraction = patterned('^[0-9]+/[1-9][0-9]*$', 'a fraction such as "1/16"');

/** What a pin of a module that is not given does to a clock. */
export const cellRoles = ['clock', 'buffer', 'inverter'] as const;

const triple = either(
  [count(), list(count()), object({ min: count(), typ: count(), max: count() })],
  'ps: one number, [min, typ, max], or an object with min, typ and max',
);
const directional = either([triple, object({ rise: triple, fall: triple })], 'ps: one delay, or rise and fall');

const delayFields = {
  sheet: nullable(text('the document the numbers come from')),
  conditions: nullable(text('supply, load, temperature; or what is assumed')),
  clockToQ: partial(
    { first: directional, next: nullable(directional) },
    ['first'],
    'first: a stage clocked from outside the package; next: one clocked inside it',
  ),
  stagesPerPart: nullable(positive('stages in one package')),
  logic: nullable(partial(everyOf(logicClasses, directional), [], 'per class of operator')),
  latch: nullable(directional),
  clear: nullable(directional),
  setup: nullable(triple),
  hold: nullable(triple),
  recovery: nullable(triple),
  removal: nullable(triple),
  width: nullable(triple),
  period: nullable(triple),
  tau: nullable(triple),
  window: nullable(triple),
};

/** One delay set; what is absent or null is not stated, counts as 0 and is said in the assumptions. */
export const delaySetShape = partial(delayFields, ['clockToQ']);

/** Delays of a single thing; what is absent or null stays as the delay set has it. */
const ownDelaysShape = partial(delayFields);

const value = either([count(), text()], 'a number, or a constant such as "4\'b0011"');
const everyPs = positive('ps after which all of it comes again');
const pulsed = choice(['high', 'low'], 'the level of the pulse, of the pressed button; high if not given');

const levels = partial(
  { levels: list(object({ atPs: count('ps; of the first 0'), value }), 'levels over time'), everyPs },
  ['levels'],
);

const pulse = partial(
  {
    pulse: partial(
      { atPs: positive('ps'), widthPs: positive('ps'), everyPs, active: pulsed },
      ['atPs', 'widthPs'],
      'at the other level before and after',
    ),
  },
  ['pulse'],
);

const button = partial(
  {
    button: partial(
      {
        pressPs: positive('ps'),
        releasePs: positive('ps'),
        bouncePs: count('ps for which the contact bounces, each time it moves; 0 if not given'),
        bounces: positive('how often it opens again within that time; 4 if not given'),
        active: pulsed,
      },
      ['pressPs'],
      'a contact',
    ),
  },
  ['button'],
);

const serial = partial(
  {
    serial: partial(
      {
        atPs: positive('ps at which the first start bit begins; one bit time if not given'),
        baud: positive('bits per second'),
        bytes: list(count('0 to 255'), 'sent one behind the other'),
      },
      ['baud', 'bytes'],
      'high while nothing is sent; each byte a start bit 0, eight data bits with the lowest first, a stop bit 1',
    ),
  },
  ['serial'],
);

const random = partial(
  {
    random: partial(
      {
        everyPs: positive('ps between two values'),
        atPs: positive('ps of the first change; everyPs if not given'),
        seed: positive('1 to 2147483646: the same seed, the same values; 1 if not given'),
      },
      ['everyPs'],
      'values without a pattern; after 1,024 of them they come again, earlier where the port has more than 256 bits',
    ),
  },
  ['random'],
);

export const projectShape = partial(
  {
    top: text('the module that is the whole design'),
    delays: text('name of the delay set'),
    start: choice(['0', '1', 'x', 0, 1], 'what registers hold where the text does not say'),
    clocks: record(
      partial({ periodPs: positive('ps'), highPs: positive('ps'), phasePs: count('first rise, ps') }),
      'by name of the signal',
    ),
    related: list(list(text()), 'groups of clocks with a fixed relation'),
    resets: record(partial({ active, periods: count('how long it is active from the start, in clock periods') })),
    inputs: record(either([value, levels, pulse, button, serial, random]), 'a level held, or how the input moves'),
    dump: partial(
      {
        file: text('a value change dump, IEEE 1364 clause 18, four-state form'),
        scope: text('the design in it, such as "tb.dut"; the scope with most of its ports if not given'),
      },
      ['file'],
      'drives what clocks, resets and inputs here do not say',
    ),
    clockOperands: record(text(), 'output of a gate → which of its operands is the clock'),
    cells: record(
      record(
        either(
          [choice(cellRoles), fraction],
          'one of "clock", "buffer", "inverter"; of the key ratio, a fraction such as "1/16"',
        ),
      ),
      'module that is not given → pin → what it does to a clock; ratio: periods out per period in',
    ),
    static: list(text(), 'registers and ports that do not change while it matters'),
    strobes: list(text(), 'outputs that something outside acts on'),
    rates: record(number(), 'periodic output or enable → wished Hz'),
    accepted: list(object({ id: text(), signal: text(), reason: text() }), 'findings that are known and meant'),
    delaySets: record(delaySetShape),
    overrides: record(
      ownDelaysShape,
      'instance, signal or bits of one → what of its delays is not as in the delay set',
    ),
    limits: partial(everyOf(Object.keys(limitDefaults), count()), [], 'how much work one construct may take'),
    libraries: list(text(), 'folders in which modules that are not given are looked for'),
    includes: list(text(), 'folders in which included files are looked for'),
    defines: record(text(), 'macros defined before the first file'),
  },
  [],
  'foretick.json',
);

function everyOf(names: readonly string[], shape: Shape): Fields {
  return Object.fromEntries(names.map((name) => [name, shape]));
}

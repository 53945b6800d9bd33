// What a person asks about: the same design with another clock edge, start value, clock or delays of a register, other
// delays of all, or an input held otherwise. Nothing of the text changes: a new netlist and new options come out, for a
// study of their own. What cannot be asked of this design is answered by a sentence.

import { builtInDelaySet } from '../delays/built-in-sets';
import { findBits } from '../explain/find-bits';
import { type Bits, bitsOf, digitAt, toBinary } from '../netlist/four-state';
import type { Bit, Netlist, Register } from '../netlist/netlist';
import { signalSliceName } from '../netlist/bit-names';
import { sourceBit } from '../netlist/trace';
import { parseDriveValue } from '../predict/drive-value';
import type { WhatIf } from './asked';
import type { StudyOptions } from './options';
import { refuse } from './refusal';

/** `q[1] edge rising`, `q start 3`, `q clock clk2`, `delays 74HC393`, `q delays 74HC74`, `en held 0`. Throws a `Refusal`. */
export function parseWhatIf(written: string): WhatIf {
  const words = /^(?:(.*)\s)?(edge|start|clock|delays|held)\s+(\S.*)$/s.exec(written.trim());
  const about = (words?.[1] ?? '').trim();
  if (words === null) return refuse(`${written} is no what-if: write NAME edge|start|clock|delays|held VALUE`);
  const what = words[2] as WhatIf['what'];
  if (about === '' && what !== 'delays') refuse(`${written}: before ${what} the name of what it is about is missing`);
  return { about, what, value: words[3].trim() };
}

/** What of it is no matter of the netlist: delays and inputs. Throws a `Refusal` where a delay set is unknown. */
export function optionsWithWhatIf(options: StudyOptions, asked: readonly WhatIf[]): StudyOptions {
  const delays = asked.filter(({ what }) => what === 'delays');
  const ofAll = delays.filter(({ about }) => about === '').at(-1);
  const own = delays.filter(({ about }) => about !== '').map(({ about, value }) => [about, writtenSet(options, value)]);
  const held = asked.filter(({ what }) => what === 'held').map(({ about, value }) => [about, value] as const);
  const { drive } = options;
  return {
    ...options,
    ...(ofAll === undefined ? {} : { delays: ofAll.value, isDelaySetStated: true }),
    overrides: { ...options.overrides, ...Object.fromEntries(own) },
    drive: { ...drive, inputs: { ...drive.inputs, ...Object.fromEntries(held) } },
    whatIf: [],
  };
}

/** As a project states it. */
function writtenSet({ delaySets }: StudyOptions, name: string): unknown {
  if (Object.hasOwn(delaySets, name)) return delaySets[name];
  const set = builtInDelaySet(name) ?? refuse(`no delay set is called ${name}`);
  return Object.fromEntries(Object.entries(set).filter(([key]) => key !== 'name' && key !== 'own'));
}

export interface Varied {
  readonly netlist: Netlist;
  /** Why the design cannot be asked so, one sentence each. */
  readonly refusals: readonly string[];
}

/** The netlist with everything asked that is a matter of it. */
export function varyNetlist(netlist: Netlist, asked: readonly WhatIf[]): Varied {
  const registers = [...netlist.registers];
  const refusals: string[] = [];
  for (const item of asked) {
    const refusal = item.what === 'held' ? refusedInput(netlist, item) : changeRegisters(netlist, registers, item);
    if (refusal !== null) refusals.push(refusal);
  }
  return { netlist: { ...netlist, registers }, refusals };
}

function refusedInput({ signals }: Netlist, { about, value }: WhatIf): string | null {
  const port = signals.find(({ name }) => name === about);
  if (port === undefined || port.port === null || port.port === 'output') return `${about} is no input of this design`;
  return parseDriveValue(value, port.width) === null ? `${about} cannot be held at ${value}` : null;
}

/** Changes them in place; null where that could be done. */
function changeRegisters(netlist: Netlist, registers: Register[], item: WhatIf): string | null {
  const { about, value, what } = item;
  if (about === '') return null;
  const bits = findBits(netlist, about);
  if (bits === null) return `${about} is no signal of this design`;
  const named = bits.map(({ bit }) => sourceBit(netlist.nodes, bit));
  const own = registers.filter(({ node }) => named.some((bit) => bit.node === node));
  if (own.length === 0) return `${about} is held in no register`;
  for (const register of own) {
    const changed =
      what === 'start' ? withStart(register, named, value) : changedRegister(netlist, register, named, item);
    if (typeof changed === 'string') return changed;
    registers[register.id] = changed;
  }
  return null;
}

/** One that is named in part only cannot be clocked in part. */
function changedRegister(
  netlist: Netlist,
  register: Register,
  named: readonly Bit[],
  { about, value, what }: WhatIf,
): Register | string {
  const part = named.filter(({ node }) => node === register.node).length;
  if (part < register.width) {
    const whole = signalSliceName(netlist.signals[register.signal], register.low, register.width);
    return `${about} is clocked together with all of ${whole}: name that`;
  }
  switch (what) {
    case 'edge':
      return value === 'rising' || value === 'falling'
        ? { ...register, edge: value }
        : `an edge is rising or falling, not ${value}`;
    case 'clock': {
      const [clock, ...others] = findBits(netlist, value) ?? [];
      if (clock === undefined) return `${value} is no signal of this design`;
      return others.length > 0
        ? `${value} has several bits: name one of them`
        : { ...register, clock: clock.bit, clockText: value };
    }
    default:
      return register;
  }
}

/** The value is that of the bits that are named; of a register of which others are too, they keep theirs. */
function withStart(register: Register, named: readonly Bit[], value: string): Register | string {
  const start = /^x$/i.test(value) ? bitsOf('x'.repeat(named.length)) : parseDriveValue(value, named.length);
  if (start === null) return `a start of ${named.length} bits cannot be ${value}`;
  const digits = Array.from({ length: register.width }, (_, bit) => digitOfStart(register, named, start, bit));
  return { ...register, initial: bitsOf(digits.reverse().join('')) };
}

function digitOfStart({ initial, node }: Register, named: readonly Bit[], start: Bits, bit: number): string {
  const place = named.findIndex((each) => each.node === node && each.bit === bit);
  return place < 0 ? digitAt(initial, bit) : toBinary(start)[place];
}

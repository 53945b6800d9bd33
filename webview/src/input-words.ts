// What a person may write into the field of an input: a level that is held, or in words how it moves. The words are the
// shapes of `foretick.json`; whether the design can follow is the server's to say.

import type { WrittenInput } from '../../server/src/report/project-inputs';
import { timeWords } from '../../server/src/text/time-words';
import { constantExpected, parseConstant, parseTime, type Written } from './drive-values';

interface Form {
  /** The word that it begins with. */
  readonly word: string;
  readonly pattern: RegExp;
  readonly example: string;
  /** Whether only one bit moves so. */
  readonly isOfBit: boolean;
  read(parts: Readonly<Record<string, string | undefined>>): Written<WrittenInput>;
}

const time = String.raw`\d[\d.,]*\s*[a-zµμ]*`;

const forms: readonly Form[] = [
  {
    word: 'pulse',
    pattern: formOf(`pulse at (?<at>${time}) for (?<width>${time})(?: every (?<every>${time}))?(?: (?<low>low))?`),
    example: 'pulse at 100 ns for 20 ns',
    isOfBit: true,
    read: ({ at, every, low, width }) =>
      withTimes({ atPs: at, widthPs: width, everyPs: every }, (times) => ({
        pulse: { ...(times as { atPs: number; widthPs: number; everyPs?: number }), ...activeOf(low) },
      })),
  },
  {
    word: 'press',
    pattern: formOf(
      `press at (?<at>${time})(?: release at (?<release>${time}))?(?: bouncing (?<bounce>${time})(?: (?<times>[1-9]\\d{0,3}) times)?)?(?: (?<low>low))?`,
    ),
    example: 'press at 1 µs bouncing 200 ns',
    isOfBit: true,
    read: ({ at, bounce, low, release, times: bounces }) =>
      withTimes({ pressPs: at, releasePs: release, bouncePs: bounce }, (times) => ({
        button: {
          ...(times as { pressPs: number; releasePs?: number; bouncePs?: number }),
          ...(bounces === undefined ? {} : { bounces: Number(bounces) }),
          ...activeOf(low),
        },
      })),
  },
  {
    word: 'serial',
    pattern: formOf(
      `serial (?<bytes>(?:\\d{1,3}|0x[0-9a-f]{1,2})(?: (?:\\d{1,3}|0x[0-9a-f]{1,2}))*) at (?<baud>[1-9]\\d{0,11}) baud(?: from (?<from>${time}))?`,
    ),
    example: 'serial 0x55 at 115200 baud',
    isOfBit: true,
    read: ({ baud, bytes = '', from }) => {
      const values = bytes.split(/\s+/).map(Number);
      if (values.some((value) => value > 255)) return refused('bytes from 0 to 255');
      return withTimes({ atPs: from }, (times) => ({ serial: { baud: Number(baud), bytes: values, ...times } }));
    },
  },
  {
    word: 'random',
    pattern: formOf(`random(?: seed (?<seed>[1-9]\\d{0,9}))? every (?<every>${time})(?: from (?<from>${time}))?`),
    example: 'random every 20 ns',
    isOfBit: false,
    read: ({ every, from, seed }) =>
      withTimes({ everyPs: every, atPs: from }, (times) => ({
        random: {
          ...(times as { everyPs: number; atPs?: number }),
          ...(seed === undefined ? {} : { seed: Number(seed) }),
        },
      })),
  },
];

/** `width`: of the port, bits. */
export function parseInput(text: string, width: number): Written<WrittenInput> {
  const written = text.trim().replace(/\s+/g, ' ');
  const form = forms.find(({ word }) => written.toLowerCase().startsWith(word));
  if (form === undefined) return /,| at /.test(written) ? parseLevels(written, width) : heldOrExpected(written, width);
  if (form.isOfBit && width !== 1) return refused(`levels or values at random, since this has ${width} bits`);
  const parts = form.pattern.exec(written);
  return parts === null ? refused(`a movement such as ${form.example}`) : form.read(parts.groups ?? {});
}

/** The words for what was chosen; they are read back as the same. */
export function writeInput(input: WrittenInput): string {
  if (typeof input !== 'object') return String(input);
  if ('levels' in input) return writeLevels(input.levels, input.everyPs ?? null);
  if ('pulse' in input) {
    const { active, atPs, everyPs, widthPs } = input.pulse;
    return `pulse at ${timeWords(atPs)} for ${timeWords(widthPs)}${optional(' every', everyPs)}${lowOf(active)}`;
  }
  if ('button' in input) {
    const { active, bouncePs, bounces, pressPs, releasePs } = input.button;
    const times = bounces === undefined ? '' : ` ${bounces} times`;
    const bouncing = bouncePs === undefined ? '' : ` bouncing ${timeWords(bouncePs)}${times}`;
    return `press at ${timeWords(pressPs)}${optional(' release at', releasePs)}${bouncing}${lowOf(active)}`;
  }
  if ('serial' in input) {
    const { atPs, baud, bytes } = input.serial;
    const words = bytes.map((byte) => `0x${byte.toString(16).padStart(2, '0')}`).join(' ');
    return `serial ${words} at ${baud} baud${optional(' from', atPs)}`;
  }
  const { atPs, everyPs, seed } = input.random;
  return `random${seed === undefined ? '' : ` seed ${seed}`} every ${timeWords(everyPs)}${optional(' from', atPs)}`;
}

/** `0, 1 at 35 ns, 0 at 75 ns again every 1 µs` */
export function writeLevels(
  [first, ...later]: readonly { readonly atPs: number; readonly value: string | number }[],
  everyPs: number | null,
): string {
  const moves = later.map(({ atPs, value }) => `${value} at ${timeWords(atPs)}`);
  return `${[first.value, ...moves].join(', ')}${optional(' again every', everyPs ?? undefined)}`;
}

function formOf(pattern: string): RegExp {
  return new RegExp(`^${pattern}$`, 'i');
}

function parseLevels(written: string, width: number): Written<WrittenInput> {
  const expected = 'levels in order of time, such as 0, 1 at 100 ns, 0 at 200 ns';
  const parts = /^(?<list>.*?)(?: again every (?<every>[^,]+))?$/i.exec(written)?.groups ?? {};
  const [first = '', ...later] = (parts.list ?? '').split(',').map((each) => each.trim());
  const start = parseConstant(first, width);
  if (start.kind === 'refused') return start;
  const levels: { atPs: number; value: string }[] = [{ atPs: 0, value: start.value }];
  for (const each of later) {
    const [value = '', at = ''] = each.split(/ at /i);
    const constant = parseConstant(value, width);
    const instant = parseTime(at);
    if (constant.kind === 'refused') return constant;
    if (instant.kind === 'refused' || instant.value <= levels[levels.length - 1].atPs) return refused(expected);
    levels.push({ atPs: instant.value, value: constant.value });
  }
  if (levels.length === 1) return refused(expected);
  return withTimes({ everyPs: parts.every }, (times) => ({ levels, ...times }));
}

function heldOrExpected(written: string, width: number): Written<WrittenInput> {
  const held = parseConstant(written, width);
  if (held.kind === 'value' || /^['\d]/.test(written)) return held;
  const examples = forms.filter(({ isOfBit }) => !isOfBit || width === 1).map(({ example }) => example);
  return refused(`${constantExpected(width)}; or a movement: ${[...examples, '0, 1 at 100 ns'].join('; ')}`);
}

/** Times as written to ps; absent ones stay away. */
function withTimes(
  written: Readonly<Record<string, string | undefined>>,
  make: (times: Readonly<Record<string, number>>) => WrittenInput,
): Written<WrittenInput> {
  const times: Record<string, number> = {};
  for (const [name, text] of Object.entries(written)) {
    if (text === undefined) continue;
    const read = parseTime(text);
    if (read.kind === 'refused') return read;
    if (read.value === 0) return refused('times above 0');
    times[name] = read.value;
  }
  return { kind: 'value', value: make(times) };
}

function activeOf(low: string | undefined): { readonly active?: 'low' } {
  return low === undefined ? {} : { active: 'low' };
}

function lowOf(active: 'high' | 'low' | undefined): string {
  return active === 'low' ? ' low' : '';
}

function optional(words: string, ps: number | undefined): string {
  return ps === undefined ? '' : `${words} ${timeWords(ps)}`;
}

function refused(expected: string): { readonly kind: 'refused'; readonly expected: string } {
  return { kind: 'refused', expected };
}

// An input as a person states it, in the project file or in the panel: a level that is held, or a shape - levels over
// time, a pulse, a button that bounces, bytes on a serial line, values at random. What a shape's numbers must be to each
// other is checked here; whether its values fit the port, where the drive is made.

import type { InputShape } from '../predict/drive';

/** As the shape of the file allows it. */
export type WrittenInput =
  | Value
  | WrittenLevels
  | { readonly pulse: WrittenPulse }
  | { readonly button: WrittenButton }
  | { readonly serial: WrittenSerial }
  | { readonly random: WrittenRandom };

type Value = string | number;

interface WrittenLevels {
  readonly levels: readonly { readonly atPs: number; readonly value: Value }[];
  readonly everyPs?: number;
}

interface WrittenPulse {
  readonly atPs: number;
  readonly widthPs: number;
  readonly everyPs?: number;
  readonly active?: 'high' | 'low';
}

interface WrittenButton {
  readonly pressPs: number;
  readonly releasePs?: number;
  readonly bouncePs?: number;
  readonly bounces?: number;
  readonly active?: 'high' | 'low';
}

interface WrittenSerial {
  readonly atPs?: number;
  readonly baud: number;
  readonly bytes: readonly number[];
}

interface WrittenRandom {
  readonly everyPs: number;
  readonly atPs?: number;
  readonly seed?: number;
}

const usualBounces = 4;
const largestSeed = 2_147_483_646;

export function inputOf(written: WrittenInput): string | InputShape {
  if (typeof written !== 'object') return String(written);
  if ('levels' in written) {
    const levels = written.levels.map(({ atPs, value }) => ({ atPs, value: String(value) }));
    return { kind: 'levels', levels, everyPs: written.everyPs ?? null };
  }
  if ('pulse' in written) {
    const { active = 'high', atPs, everyPs = null, widthPs } = written.pulse;
    return { kind: 'pulse', atPs, widthPs, everyPs, active };
  }
  if ('serial' in written) {
    const { atPs, baud, bytes } = written.serial;
    return { kind: 'serial', atPs: atPs ?? Math.round(1e12 / baud), baud, bytes };
  }
  if ('random' in written) {
    const { random } = written;
    const { everyPs, atPs = everyPs, seed = 1 } = random;
    return { kind: 'random', atPs, stepPs: everyPs, seed };
  }
  const { active = 'high', bouncePs = 0, pressPs, releasePs = null } = written.button;
  const bounces = bouncePs === 0 ? 0 : (written.button.bounces ?? usualBounces);
  return { kind: 'button', pressPs, releasePs, bouncePs, bounces, active };
}

/** What no shape can say; `path` is what the input is called. */
export function checkInput(written: WrittenInput, path: string): readonly string[] {
  if (typeof written !== 'object') return [];
  if ('levels' in written) return checkLevels(written, path);
  if ('serial' in written) return checkSerial(written.serial, path);
  if ('random' in written) {
    const { random } = written;
    return checkRandom(random, path);
  }
  return 'pulse' in written ? checkPulse(written.pulse, path) : checkButton(written.button, path);
}

/** Beyond 500 GBd a bit would be shorter than two of the steps in which time is counted. */
function checkSerial({ baud, bytes }: WrittenSerial, path: string): readonly string[] {
  const wrong = bytes.findIndex((byte) => byte > 255);
  return [
    ...(bytes.length === 0 ? [`${path}.serial.bytes must have a byte`] : []),
    ...(wrong >= 0 ? [`${path}.serial.bytes[${wrong}] must be 0 to 255`] : []),
    ...(baud > 5e11 ? [`${path}.serial.baud must be at most 500000000000`] : []),
  ];
}

function checkRandom({ seed = 1 }: WrittenRandom, path: string): readonly string[] {
  return seed > largestSeed ? [`${path}.random.seed must be at most ${largestSeed}`] : [];
}

function checkLevels({ everyPs, levels }: WrittenLevels, path: string): readonly string[] {
  if (levels[0]?.atPs !== 0) return [`${path}.levels must begin at 0`];
  const late = levels.findIndex(({ atPs }, index) => index > 0 && atPs <= levels[index - 1].atPs);
  if (late > 0) return [`${path}.levels[${late}].atPs must be later than the one before`];
  const last = levels[levels.length - 1].atPs;
  return everyPs !== undefined && everyPs <= last ? [`${path}.everyPs must be later than the last level`] : [];
}

function checkPulse({ everyPs, widthPs }: WrittenPulse, path: string): readonly string[] {
  return everyPs !== undefined && everyPs <= widthPs ? [`${path}.pulse.everyPs must be more than widthPs`] : [];
}

function checkButton(button: WrittenButton, path: string): readonly string[] {
  const { bouncePs = 0, bounces = usualBounces, pressPs, releasePs } = button;
  if (bouncePs > 0 && bouncePs < 2 * bounces) return [`${path}.button.bouncePs must be at least 2 for each bounce`];
  if (releasePs === undefined || releasePs > pressPs + bouncePs) return [];
  return [`${path}.button.releasePs must be later than pressPs and its bouncing`];
}

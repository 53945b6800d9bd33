// The inputs that are neither clock nor reset: held at a given value or moving as stated, else held at the level that
// lets registers move, as the votes of the registers or, where they have none, the port's name tell; data at 0. An inout
// is released.

import type { BenchWave } from '../netlist/bench';
import { bitsOf, toBinary } from '../netlist/four-state';
import type { Why } from '../clocks/network';
import { bitKey } from '../netlist/bit-key';
import type { Signal, SignalId } from '../netlist/netlist';
import type { Assumption, DriveInput, DriveOptions, Source } from './drive';
import { assumedAsTold, cutAsTold, notTold, sourceOf, type ToldWave, type ToldWaves } from './drive-told';
import { unknownName } from './drive-clocks';
import { type DrivePort, type DrivePorts, isTaken, type TakenBits } from './drive-ports';
import { movesOfShape } from './drive-shapes';
import { parseDriveValue } from './drive-value';
import type { Verdict } from './drive-votes';
import { hintOfName } from './drive-words';

export interface DrivenInputs {
  readonly inputs: readonly DriveInput[];
  readonly assumptions: readonly Assumption[];
}

export interface InputsInput {
  readonly ports: DrivePorts;
  readonly options: DriveOptions;
  readonly told: ToldWaves;
  readonly taken: TakenBits;
  readonly votes: ReadonlyMap<number, Verdict>;
  readonly openDrain: ReadonlySet<SignalId>;
}

export function driveInputs({ openDrain, ports, options, taken, told: waves, votes }: InputsInput): DrivenInputs {
  const assumptions: Assumption[] = [];
  const inputs = ports.list.flatMap((port): DriveInput[] => {
    const { signal } = port;
    if (freeBits(port, taken).length === 0) {
      if (Object.hasOwn(options.inputs, signal.name)) assumptions.push(takenAssumption(signal));
      return [];
    }
    const given = givenInput(port, options, assumptions);
    if (given !== null) return [{ signal: signal.id, name: signal.name, ...given, source: 'given', why: null }];
    const told = waves.get(signal.name);
    if (told !== undefined) assumptions.push(toldInput(signal.name, told));
    if (told !== undefined && told.wave !== null) {
      return [{ signal: signal.id, name: signal.name, ...movesOfWave(told.wave), source: sourceOf(told), why: null }];
    }
    const assumed = openDrain.has(signal.id) ? openDrainValue(port) : assumedValue(port, taken, votes);
    assumptions.push({
      about: signal.name,
      value: assumed.text,
      source: assumed.source,
      why: assumed.why,
      place: signal.place,
    });
    const { source, text, why } = assumed;
    return [{ signal: signal.id, name: signal.name, value: bitsOf(text), moves: null, source, why }];
  });
  for (const name of Object.keys(options.inputs)) {
    if (!ports.list.some(({ signal }) => signal.name === name)) assumptions.push(unknownName('inputs', name));
  }
  return { inputs, assumptions };
}

function toldInput(name: string, told: ToldWave): Assumption {
  if (told.wave === null) return notTold(name, told);
  const { changes, start } = told.wave;
  const value = `${start.width}'b${toBinary(start)}`;
  const last = changes[changes.length - 1];
  const isWhole = told.wave.isWhole || last === undefined;
  return isWhole ? assumedAsTold(name, value, told) : cutAsTold(name, value, told, last.at);
}

function movesOfWave({ changes, start }: BenchWave): Pick<DriveInput, 'value' | 'moves'> {
  return { value: start, moves: changes.length === 0 ? null : { changes, everyPs: null } };
}

function freeBits({ signal, node }: DrivePort, taken: TakenBits): number[] {
  return Array.from({ length: signal.width }, (_, bit) => bit).filter((bit) => !isTaken(taken, { node, bit }));
}

function takenAssumption({ name, place }: Signal): Assumption {
  const why = { reason: 'drive-input-taken', args: { name } };
  return { about: name, value: 'inputs', source: 'given', why, place };
}

function givenInput(
  { signal }: DrivePort,
  options: DriveOptions,
  assumptions: Assumption[],
): Pick<DriveInput, 'value' | 'moves'> | null {
  const stated = Object.hasOwn(options.inputs, signal.name) ? options.inputs[signal.name] : null;
  if (stated === null) return null;
  const given = typeof stated === 'string' ? heldAt(stated, signal.width) : movesOfShape(stated, signal.width);
  if (!('misfit' in given)) return given;
  const why = {
    reason: 'drive-input-refused',
    args: { name: signal.name, written: given.misfit, width: signal.width },
  };
  assumptions.push({ about: signal.name, value: given.misfit, source: 'given', why, place: signal.place });
  return null;
}

function heldAt(written: string, width: number): Pick<DriveInput, 'value' | 'moves'> | { readonly misfit: string } {
  const value = parseDriveValue(written, width);
  return value === null ? { misfit: written } : { value, moves: null };
}

interface AssumedValue {
  /** Digits, most significant first. */
  readonly text: string;
  readonly source: Source;
  readonly why: Why;
}

function openDrainValue({ signal }: DrivePort): AssumedValue {
  const why = { reason: 'drive-open-drain', args: { name: signal.name } };
  return { text: 'z'.repeat(signal.width), source: 'inferred', why };
}

/** One reason for the whole port: the first bit that a register asks for, from the most significant on. */
function assumedValue(port: DrivePort, taken: TakenBits, votes: ReadonlyMap<number, Verdict>): AssumedValue {
  const { signal, node } = port;
  const args = { name: signal.name };
  if (signal.port === 'inout') {
    return { text: 'z'.repeat(signal.width), source: 'setting', why: { reason: 'drive-input-released', args } };
  }
  const free = new Set(freeBits(port, taken));
  const verdicts = Array.from({ length: signal.width }, (_, bit) =>
    free.has(bit) ? votes.get(bitKey({ node, bit })) : undefined,
  );
  const voted = [...verdicts].reverse().find((verdict) => verdict !== undefined);
  if (voted === undefined) return byName(port);
  const text = verdicts
    .map((verdict) => String(verdict?.level ?? 0))
    .reverse()
    .join('');
  return { text, source: 'inferred', why: voted.why };
}

function byName({ signal }: DrivePort): AssumedValue {
  const hint = signal.width === 1 ? hintOfName(signal.name) : null;
  const args = { name: signal.name };
  if (hint === null || hint.role === 'clock') {
    return { text: '0'.repeat(signal.width), source: 'setting', why: { reason: 'drive-input-data', args } };
  }
  const isActive = hint.role === 'enable' || hint.role === 'direction';
  const level = (hint.active === 'high') === isActive ? '1' : '0';
  return {
    text: level,
    source: 'name',
    why: { reason: isActive ? 'drive-input-named-active' : 'drive-input-named-inactive', args },
  };
}

// Which traces a preview has, and in which order: per clock domain the root clock, what resets and feeds it, its registers
// stage by stage; then outputs. A line is a trace before its waveform is drawn from the run.

import type { RegisterClocking } from '../clocks/network';
import { rateWords } from '../explain/words';
import { signalBitName, signalSliceName } from '../netlist/bit-names';
import type { Bit, NodeId, Register, Signal } from '../netlist/netlist';
import { memoryWords, topPorts } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import { namesOfValues } from '../netlist/value-names';
import type { Place } from '../text/place';
import type { DesignFacts } from './design-facts';
import type { TraceKind } from './preview-data';
import { timeWords } from '../text/time-words';

export interface Line {
  readonly name: string;
  readonly kind: TraceKind;
  /** Index in the groups: a domain's own index, or one behind the last for what belongs to none. */
  readonly group: number;
  readonly indent: number;
  /** Sources, most significant first. */
  readonly bits: readonly Bit[];
  /** Names of the bits, where a vector unfolds; empty where it does not. */
  readonly bitNames: readonly string[];
  /** By binary digits, what an enumeration calls its values; null where there is none. */
  readonly names: Readonly<Record<string, string>> | null;
  readonly note: string;
  readonly place: Place;
  readonly register: Register | null;
}

export function listLines(facts: DesignFacts): readonly Line[] {
  const lines = [...clockLines(facts), ...portLines(facts), ...storageLines(facts), ...controlLines(facts)];
  const all = [...lines, ...outputLines(facts, lines), ...glitchLines(facts, lines)];
  return distinct(all).sort(
    (left, right) => left.group - right.group || rankOf(left) - rankOf(right) || left.indent - right.indent,
  );
}

/** Within a group; stages order what is stored. */
function rankOf({ kind }: Line): number {
  return { clock: 0, reset: 0, input: 0, register: 1, latch: 1, logic: 1, output: 2 }[kind];
}

/** A name is drawn once, by whoever claims it first. */
function distinct(lines: readonly Line[]): Line[] {
  const byName = new Map<string, Line>();
  for (const line of lines) if (!byName.has(line.name)) byName.set(line.name, line);
  return [...byName.values()];
}

function lineOf(facts: DesignFacts, line: Pick<Line, 'name' | 'kind' | 'bits' | 'place'> & Partial<Line>): Line {
  const { nodes } = facts.netlist;
  const given = { group: homeGroup(facts), indent: 0, bitNames: [], names: null, note: '', register: null, ...line };
  return { ...given, bits: line.bits.map((bit) => sourceBit(nodes, bit)) };
}

/** Where what has no domain of its own is drawn: with the only domain there is, else in the group behind the last. */
function homeGroup({ network: { domains } }: DesignFacts): number {
  return domains.length === 1 ? 0 : domains.length;
}

/** Roots, and clocks made by logic; a clock that a register makes is that register's line. */
function clockLines(facts: DesignFacts): readonly Line[] {
  const { network, prediction } = facts;
  return network.clocks
    .filter(({ kind }) => kind !== 'derived')
    .map((clock) => {
      const { hertz } = prediction.clocks[clock.id];
      return lineOf(facts, {
        name: clock.name,
        kind: 'clock',
        group: clock.domain ?? network.domains.length,
        indent: clock.stage,
        bits: [clock.bit],
        note: hertz === null ? '' : rateWords(hertz),
        place: clock.place,
      });
    });
}

/** Reset ports, then the other inputs of the top. */
function portLines(facts: DesignFacts): readonly Line[] {
  const resets = new Set(facts.prediction.drive.resets.map(({ name }) => name));
  return topPorts(facts.netlist)
    .filter(({ port }) => port === 'input')
    .map((signal) =>
      lineOf(facts, { ...signalLine(signal), kind: resets.has(signal.name) ? 'reset' : 'input', place: signal.place }),
    );
}

function signalLine(signal: Signal): Pick<Line, 'name' | 'bits' | 'bitNames' | 'names'> {
  return sliceLine(signal, 0, signal.width, signal.node);
}

/** Bits [low + width − 1 : low] of a signal, which are bits [width − 1 : 0] of `node`. */
function sliceLine(
  signal: Signal,
  low: number,
  width: number,
  node: NodeId,
): Pick<Line, 'name' | 'bits' | 'bitNames' | 'names'> {
  const positions = Array.from({ length: width }, (_, index) => width - 1 - index);
  return {
    name: signalSliceName(signal, low, width),
    names: namesOfValues(signal, low, width),
    bits: positions.map((bit) => ({ node, bit })),
    bitNames: width === 1 ? [] : positions.map((bit) => signalBitName(signal, low + bit)),
  };
}

function storageLines(facts: DesignFacts): readonly Line[] {
  const { netlist, network } = facts;
  const words = memoryWords(netlist);
  const registers = netlist.registers
    .filter(({ signal }) => !words.has(signal))
    .map((register) => registerLine(facts, register));
  const latches = netlist.latches.map((latch) => {
    const clocking = network.latches[latch.id];
    return lineOf(facts, {
      ...sliceLine(netlist.signals[latch.signal], latch.low, latch.width, latch.node),
      kind: 'latch',
      group: clocking.domain ?? network.domains.length,
      indent: clocking.gate === null ? 0 : network.clocks[clocking.gate].stage + 1,
      place: latch.place,
    });
  });
  return [...registers, ...latches];
}

function registerLine(facts: DesignFacts, register: Register): Line {
  const { netlist, network, prediction } = facts;
  const clocking = network.registers[register.id];
  return lineOf(facts, {
    ...sliceLine(netlist.signals[register.signal], register.low, register.width, register.node),
    kind: 'register',
    group: clocking.domain ?? network.domains.length,
    indent: clocking.stage,
    note: registerNote(clocking, prediction.registers[register.id].settles?.all.typ ?? null),
    place: register.place,
    register,
  });
}

function registerNote({ stage }: RegisterClocking, typical: number | null): string {
  return typical === null ? `stage ${stage}` : `stage ${stage}, +${timeWords(typical)}`;
}

/** Logic that loads registers while they run: what it does cannot be understood without seeing it. */
function controlLines(facts: DesignFacts): readonly Line[] {
  return facts.network.registers.flatMap(({ asynchronous, domain, stage }) =>
    asynchronous
      .filter(({ bit }) => isLogic(facts, bit))
      .map(({ bit, name, place }) =>
        lineOf(facts, {
          name,
          kind: 'logic',
          group: domain ?? facts.network.domains.length,
          indent: stage,
          bits: [bit],
          place,
        }),
      ),
  );
}

function isLogic({ netlist: { nodes } }: DesignFacts, bit: Bit): boolean {
  const op = nodes.op[sourceBit(nodes, bit).node];
  return op > Op.hole;
}

/** Outputs of the top, but for those that are a register's own signal. */
function outputLines(facts: DesignFacts, lines: readonly Line[]): readonly Line[] {
  const shown = new Set(lines.flatMap(({ name, bitNames }) => [name, ...bitNames]));
  return topPorts(facts.netlist)
    .filter(({ port }) => port === 'output' || port === 'inout')
    .filter((signal) => !bitNamesOf(signal).every((name) => shown.has(name)))
    .map((signal) => lineOf(facts, { ...signalLine(signal), kind: 'output', place: signal.place }));
}

function bitNamesOf(signal: Signal): readonly string[] {
  return Array.from({ length: signal.width }, (_, bit) => signalBitName(signal, bit));
}

/** Decodes that can glitch and are no output. */
function glitchLines(facts: DesignFacts, lines: readonly Line[]): readonly Line[] {
  const shown = new Set(lines.flatMap(({ bits }) => bits.map(({ node, bit }) => `${node}.${bit}`)));
  const outputs = new Set(topPorts(facts.netlist).flatMap(bitNamesOf));
  return facts.hazards.glitches
    .filter(({ bit, signal }) => !shown.has(`${bit.node}.${bit.bit}`) && !outputs.has(signal))
    .map(({ bit, place, signal }) => lineOf(facts, { name: signal, kind: 'logic', bits: [bit], place }));
}

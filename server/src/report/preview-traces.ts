// The waveforms of a preview: for each line its value from the start, its changes with the links that made them, the edges
// at which it kept its value, the bands in which it settles, and where it is in doubt. Vectors come folded, then their bits.

import { type AccountContext, accountContext } from '../explain/account-steps';
import { heldReasonOf, isActiveEdge } from '../explain/account-held';
import { doubtWordsOf, heldWords } from '../explain/account-words';
import { digitSampled } from '../explain/wave-reading';
import { digitOf } from '../explain/words';
import type { Bit } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import type { Level, Waves } from '../predict/waves';
import type { Windows } from '../predict/windows';
import type { DesignFacts } from './design-facts';
import { bandsOf } from './preview-bands';
import type { PreviewHeld, PreviewTrace } from './preview-data';
import type { Line } from './preview-lines';
import { buildLinks, type LinkTable } from './preview-links';
import { changesInOrder } from './preview-movements';
import type { PreviewRun } from './study-design';

export interface Drawn {
  readonly traces: readonly PreviewTrace[];
  readonly table: LinkTable;
}

/** Yields after each line. */
export function* drawTraces(
  facts: DesignFacts,
  { waves, windows }: PreviewRun,
  lines: readonly Line[],
): Generator<void, Drawn> {
  const context = accountContext({ ...facts, waves });
  const table = yield* buildLinks(context, shownChanges(facts, waves, lines));
  const pen: Pen = { facts, waves, windows, context, table };
  const traces: PreviewTrace[] = [];
  for (const line of lines) {
    const parent = traces.length;
    traces.push(drawLine(pen, line, null));
    for (const [index, name] of line.bitNames.entries()) {
      traces.push(drawLine(pen, { ...line, name, bits: [line.bits[index]], names: null, note: '' }, parent));
    }
    yield;
  }
  return { traces, table };
}

interface Pen {
  readonly facts: DesignFacts;
  readonly waves: Waves;
  readonly windows: Windows;
  readonly context: AccountContext;
  readonly table: LinkTable;
}

/** What lines show, and the clock changes that a register kept its value at. */
function* shownChanges({ netlist }: DesignFacts, waves: Waves, lines: readonly Line[]): Generator<number> {
  for (const { bits, register } of lines) {
    for (const bit of bits) yield* Array.from(waves.changesOf(bit));
    if (register !== null) yield* Array.from(waves.changesOf(sourceBit(netlist.nodes, register.clock)));
  }
}

function drawLine(pen: Pen, line: Line, parent: number | null): PreviewTrace {
  const { places } = pen.facts;
  const { register } = line;
  return {
    name: line.name,
    kind: line.kind,
    group: line.group,
    indent: line.indent,
    width: line.bits.length,
    parent,
    note: line.note,
    span: places.spanOf(line.place),
    clock:
      register === null
        ? null
        : { signal: register.clockText, edge: register.edge, span: places.spanOf(register.samplePlace) },
    ...(line.names === null ? {} : { names: line.names }),
    start: line.bits.map((bit) => digitOf(pen.waves.startOf(bit))).join(''),
    changes: drawChanges(pen, line.bits),
    held: parent === null ? drawHeld(pen, line) : [],
    settling: bandsOf(pen.windows, line.bits),
    doubts: drawDoubts(pen, line),
  };
}

/** Where several bits change at one instant, the value after all of them. */
function drawChanges({ table, waves }: Pen, bits: readonly Bit[]): PreviewTrace['changes'] {
  const digits: string[] = bits.map((bit) => digitOf(waves.startOf(bit)));
  const at: number[] = [];
  const value: string[] = [];
  const link: number[] = [];
  for (const { change, position } of changesInOrder(waves, bits)) {
    digits[position] = digitOf(waves.changes.value[change] as Level);
    if (at[at.length - 1] !== waves.changes.time[change]) at.push(waves.changes.time[change]);
    value[at.length - 1] = digits.join('');
    link[at.length - 1] = table.linkOf(change);
  }
  return { at, value, link };
}

function drawHeld({ context, facts, table, waves }: Pen, { bits, register }: Line): readonly PreviewHeld[] {
  if (register === null) return [];
  const answered = new Set(
    bits.flatMap((bit) => Array.from(waves.changesOf(bit), (change) => waves.changes.cause[change])),
  );
  const edges = Array.from(waves.changesOf(sourceBit(facts.netlist.nodes, register.clock)));
  return edges
    .filter((edge) => !answered.has(edge) && isActiveEdge(context, register, edge))
    .map((edge) => ({
      at: waves.changes.time[edge],
      cause: table.linkOf(edge),
      words: `kept its value ${heldWords(heldReasonOf(context, register, 0, edge))}`,
    }));
}

/** Of a vector every doubt; of a bit those that left it unknown, or that chose for it where nothing is merged. */
function drawDoubts({ waves }: Pen, { bits }: Line): PreviewTrace['doubts'] {
  const nodes = new Set(bits.map(({ node }) => node));
  const unknown = new Set(bits.flatMap((bit) => causesOfUnknown(waves, bit)));
  return waves.doubts
    .filter(({ cause, kind, node, time }) => {
      if (!nodes.has(node)) return false;
      return kind === 'crossing' || unknown.has(cause) || bits.some((bit) => digitSampled(waves, bit, time) === 'x');
    })
    .map(({ kind, time }) => ({ at: time, words: doubtWordsOf(kind) }));
}

/** What made the bit unknown: indices of the waves' changes. */
function causesOfUnknown(waves: Waves, bit: Bit): readonly number[] {
  return Array.from(waves.changesOf(bit))
    .filter((change) => digitOf(waves.changes.value[change] as Level) === 'x')
    .map((change) => waves.changes.cause[change]);
}

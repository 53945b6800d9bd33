// Definition 1 to 5, bit by bit: from a clock pin back to its roots, with the stages, edges and domain on the way. Each
// bit is walked once. A clock that hangs on itself has no root; what its gates say about soundness is `gate-facts.ts`.

import { bitKey } from '../netlist/bit-key';
import type { Bit, EdgeKind, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { cellStep } from './cells';
import { type ClockOperands, clockOperands } from './clock-operands';
import { type Context, opOf, sameBit, sourceOf } from './context';
import { bothEdges, type EdgeSet, edgeSet, noEdge } from './edge-set';
import { type GateStep, stepOf } from './gate-shape';
import { createMemoWalk, type MemoWalk } from './memo-walk';
import type { Clock, ClockKind } from './network';
import { createOperandEvidence } from './operand-evidence';

export interface ClockWalk {
  readonly bit: Bit;
  readonly kind: ClockKind;
  /** The bits that it takes its edges from, one step back; none for a root. */
  readonly from: readonly Bit[];
  /** Keys of the root bits, ascending. */
  readonly roots: readonly number[];
  /** No operand of some gate on the way could be told to be the clock, or the clock hangs on itself. */
  readonly isOpen: boolean;
  readonly stage: number;
  readonly rises: EdgeSet;
  readonly falls: EdgeSet;
  /** The bit that the domain is named by: a root, or an output that more than one clock reaches. Null where open. */
  readonly domain: Bit | null;
  readonly sources: Clock['sourceRegisters'];
  /** The bit with buffers, inverters and gates of one clock taken off, and how this bit follows it. */
  readonly base: Bit;
  readonly sense: 'straight' | 'inverted';
  readonly gate: { readonly step: GateStep; readonly operands: ClockOperands } | null;
}

/** Answers for source bits: look wiring through first. */
export function createClockWalk(context: Context): MemoWalk<ClockWalk> {
  const evidence = createOperandEvidence(context);
  const operands = new Map<number, ClockOperands>();

  function operandsOfGate(bit: Bit, step: GateStep): ClockOperands {
    const known = operands.get(bitKey(bit)) ?? clockOperands(context, evidence, bit, step);
    operands.set(bitKey(bit), known);
    return known;
  }

  return createMemoWalk<ClockWalk>({
    operandsOf(bit) {
      const step = stepOf(context, bit);
      switch (step.kind) {
        case 'end': {
          const cell = cellStep(context, bit);
          return cell === null ? [] : [cell.operand];
        }
        case 'register':
          return [sourceOf(context, context.netlist.registers[step.register].clock)];
        case 'latch':
          return [sourceOf(context, context.netlist.latches[step.latch].gate)];
        case 'pass':
          return [step.operand];
        case 'gate':
          return operandsOfGate(bit, step).clocks;
      }
    },
    valueOf(bit, from, values) {
      const step = stepOf(context, bit);
      if (step.kind === 'gate') return throughGate(bit, step, operandsOfGate(bit, step), values);
      if (from.length === 0) return rootWalk(context, bit);
      const before = values[0] ?? openWalk(from[0]);
      switch (step.kind) {
        case 'end':
          return throughCell(context, bit, before);
        case 'register':
          return throughRegister(bit, before, step, context.netlist.registers[step.register].edge);
        case 'latch':
          return throughLatch(bit, before, context.netlist.latches[step.latch].active);
        case 'pass':
          return step.inverted ? inverted(bit, before) : buffered(bit, before);
      }
    },
  });
}

function rootWalk(context: Context, bit: Bit): ClockWalk {
  return {
    bit,
    kind: isShared(context, bit) ? 'shared' : 'root',
    from: [],
    roots: [bitKey(bit)],
    isOpen: false,
    stage: 0,
    rises: edgeSet('rising'),
    falls: edgeSet('falling'),
    domain: bit,
    sources: [],
    base: bit,
    sense: 'straight',
    gate: null,
  };
}

/** An inout port or a tri-state net (definition 7). */
export function isShared(context: Context, bit: Bit): boolean {
  const op = opOf(context, bit);
  if (op !== Op.input) return op === Op.resolve || op === Op.tristate;
  return context.netlist.signals[context.nodes.aux[bit.node]].port === 'inout';
}

/** A clock that is not told: no operand decided, or waiting for itself. */
function openWalk(bit: Bit): ClockWalk {
  return {
    bit,
    kind: 'gated',
    from: [],
    roots: [],
    isOpen: true,
    stage: 0,
    rises: noEdge,
    falls: noEdge,
    domain: null,
    sources: [],
    base: bit,
    sense: 'straight',
    gate: null,
  };
}

function buffered(bit: Bit, before: ClockWalk): ClockWalk {
  return { ...before, bit, from: [before.bit], gate: null };
}

function inverted(bit: Bit, before: ClockWalk): ClockWalk {
  return {
    ...buffered(bit, before),
    kind: kindTurned(before),
    rises: before.falls,
    falls: before.rises,
    sources: before.sources.map((source) => ({ ...source, inverted: !source.inverted })),
    sense: turnedSense(before.sense),
  };
}

/** Only what a root's own edges become is called inverted; turned twice, it is a buffered root. */
function kindTurned(before: ClockWalk): ClockKind {
  if (before.kind === 'inverted') return 'root';
  return before.kind === 'root' || before.kind === 'shared' ? 'inverted' : before.kind;
}

function throughCell(context: Context, bit: Bit, before: ClockWalk): ClockWalk {
  const action = cellStep(context, bit)?.action;
  if (action === 'inverter') return inverted(bit, before);
  if (action === 'buffer') return buffered(bit, before);
  // A stated clock cell (a divider, a phase-locked loop) keeps the relation; which edge it answers to is not stated.
  return {
    ...buffered(bit, before),
    kind: 'derived',
    rises: bothEdges,
    falls: bothEdges,
    sources: [],
    base: bit,
    sense: 'straight',
  };
}

/** Both directions of the output follow the edge that the register itself follows (definition 3). */
function throughRegister(
  bit: Bit,
  before: ClockWalk,
  { register, bit: index }: { readonly register: RegisterId; readonly bit: number },
  edge: EdgeKind,
): ClockWalk {
  const edges = edgesOfPin(before, edge);
  return {
    ...buffered(bit, before),
    kind: 'derived',
    stage: before.stage + 1,
    rises: edges,
    falls: edges,
    sources: [{ register, bit: index, inverted: false }],
    base: bit,
    sense: 'straight',
  };
}

/** The root edges at which a pin has this edge. */
export function edgesOfPin(clock: ClockWalk, edge: EdgeKind): EdgeSet {
  return edge === 'rising' ? clock.rises : clock.falls;
}

/** A latch launches at its opening edge (definition 8) and adds no stage (definition 2). */
function throughLatch(bit: Bit, before: ClockWalk, active: 'high' | 'low'): ClockWalk {
  const opening = active === 'high' ? before.rises : before.falls;
  return {
    ...buffered(bit, before),
    kind: 'gated',
    rises: opening,
    falls: opening,
    sources: [],
    base: bit,
    sense: 'straight',
  };
}

function throughGate(
  bit: Bit,
  step: GateStep,
  operands: ClockOperands,
  values: readonly (ClockWalk | null)[],
): ClockWalk {
  const clocks = values.filter((value) => value !== null);
  if (clocks.length === 0) return { ...openWalk(bit), from: operands.clocks, gate: { step, operands } };
  const rises = union(clocks.map((clock) => clock.rises));
  const falls = union(clocks.map((clock) => clock.falls));
  const sense = senseOf(step, operands);
  const style = styleOf(step, operands, clocks);
  return {
    bit,
    kind: kindOfGate(style, operands, clocks),
    from: clocks.map((clock) => clock.bit),
    roots: sortedUnion(clocks.map((clock) => clock.roots)),
    isOpen: clocks.length < values.length || clocks.some((clock) => clock.isOpen),
    stage: Math.max(...clocks.map((clock) => clock.stage)),
    rises: sense === 'unknown' ? rises | falls : sense === 'inverted' ? falls : rises,
    falls: sense === 'unknown' ? rises | falls : sense === 'inverted' ? rises : falls,
    domain: domainOfGate(bit, style, clocks),
    sources: sourcesOfGate(clocks, sense),
    ...baseOfGate(bit, sense, clocks),
    gate: { step, operands: { ...operands, style } },
  };
}

type Sense = 'straight' | 'inverted' | 'unknown';

/** Whether the output of a gate follows its clock, turned or not; unknown for exclusive or and for other logic. */
function senseOf(step: GateStep, { clocks }: ClockOperands): Sense {
  if (step.shape === 'xor' || step.shape === 'other') return 'unknown';
  const selects = step.selects.some((select) => clocks.some((clock) => sameBit(clock, select)));
  if (selects) return 'unknown';
  return step.inverted ? 'inverted' : 'straight';
}

function turnedSense(sense: 'straight' | 'inverted'): 'straight' | 'inverted' {
  return sense === 'straight' ? 'inverted' : 'straight';
}

/**
 * Gates of different clocks brought together by one more gate choose between clocks as a multiplexer does; a
 * multiplexer whose data are one clock, gated or not, chooses nothing.
 */
function styleOf(step: GateStep, { style }: ClockOperands, clocks: readonly ClockWalk[]): ClockOperands['style'] {
  if (style === 'switch') return haveOneBase(clocks) ? 'gate' : 'switch';
  const joins = style === 'gate' && (step.shape === 'and' || step.shape === 'or') && clocks.length > 1;
  return joins && clocks.every(({ kind }) => kind === 'gated') && !haveOneBase(clocks) ? 'switch' : style;
}

function haveOneBase([first, ...others]: readonly ClockWalk[]): boolean {
  return others.every(({ base, sense }) => sameBit(base, first.base) && sense === first.sense);
}

function kindOfGate(
  style: ClockOperands['style'],
  { controls }: ClockOperands,
  clocks: readonly ClockWalk[],
): ClockKind {
  if (style === 'switch') return 'switched';
  if (style === 'decode') return 'derived';
  return controls.length > 0 || clocks.some(({ kind }) => kind === 'gated') ? 'gated' : 'derived';
}

/** Clocks of one domain stay in it; a choice between clocks is a domain of its own (definition 5), as is any other mix. */
function domainOfGate(bit: Bit, style: ClockOperands['style'], clocks: readonly ClockWalk[]): Bit | null {
  const [first, ...others] = clocks.map((clock) => clock.domain);
  if (first === null || others.some((domain) => domain === null)) return null;
  if (style === 'switch') return bit;
  return others.every((domain) => domain !== null && sameBit(domain, first)) ? first : bit;
}

function baseOfGate(bit: Bit, sense: Sense, clocks: readonly ClockWalk[]): Pick<ClockWalk, 'base' | 'sense'> {
  if (sense === 'unknown' || !haveOneBase(clocks)) return { base: bit, sense: 'straight' };
  const [{ base, sense: before }] = clocks;
  return { base, sense: sense === 'inverted' ? turnedSense(before) : before };
}

function sourcesOfGate(clocks: readonly ClockWalk[], sense: Sense): ClockWalk['sources'] {
  const all = clocks.flatMap((clock) => clock.sources);
  const seen = new Set<string>();
  return all
    .filter(({ register, bit }) => !seen.has(`${register} ${bit}`) && seen.add(`${register} ${bit}`))
    .map((source) => (sense === 'inverted' ? { ...source, inverted: !source.inverted } : source));
}

function union(sets: readonly EdgeSet[]): EdgeSet {
  return sets.reduce((all, set) => all | set, noEdge);
}

function sortedUnion(lists: readonly (readonly number[])[]): number[] {
  return [...new Set(lists.flat())].sort((left, right) => left - right);
}

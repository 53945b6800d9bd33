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
      const [before] = values;
      if (before === null) return openWalk(bit, from);
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
    gate: null,
  };
}

/** An inout port or a tri-state net (definition 7). */
export function isShared(context: Context, bit: Bit): boolean {
  const op = opOf(context, bit);
  if (op !== Op.input) return op === Op.resolve || op === Op.tristate;
  return context.netlist.signals[context.nodes.aux[bit.node]].port === 'inout';
}

function openWalk(bit: Bit, from: readonly Bit[]): ClockWalk {
  return {
    bit,
    kind: 'gated',
    from,
    roots: [],
    isOpen: true,
    stage: 0,
    rises: noEdge,
    falls: noEdge,
    domain: null,
    sources: [],
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
  return { ...buffered(bit, before), kind: 'derived', rises: bothEdges, falls: bothEdges, sources: [] };
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
  };
}

/** The root edges at which a pin has this edge. */
export function edgesOfPin(clock: ClockWalk, edge: EdgeKind): EdgeSet {
  return edge === 'rising' ? clock.rises : clock.falls;
}

/** A latch launches at its opening edge (definition 8) and adds no stage (definition 2). */
function throughLatch(bit: Bit, before: ClockWalk, active: 'high' | 'low'): ClockWalk {
  const opening = active === 'high' ? before.rises : before.falls;
  return { ...buffered(bit, before), kind: 'gated', rises: opening, falls: opening, sources: [] };
}

function throughGate(
  bit: Bit,
  step: GateStep,
  operands: ClockOperands,
  values: readonly (ClockWalk | null)[],
): ClockWalk {
  const clocks = values.filter((value) => value !== null);
  const gate = { step, operands };
  if (clocks.length === 0) return { ...openWalk(bit, operands.clocks), gate };
  const rises = union(clocks.map((clock) => clock.rises));
  const falls = union(clocks.map((clock) => clock.falls));
  const sense = senseOf(step, operands);
  return {
    bit,
    kind: kindOfGate(operands),
    from: clocks.map((clock) => clock.bit),
    roots: sortedUnion(clocks.map((clock) => clock.roots)),
    isOpen: clocks.length < values.length || clocks.some((clock) => clock.isOpen),
    stage: Math.max(...clocks.map((clock) => clock.stage)),
    rises: sense === 'unknown' ? rises | falls : sense === 'inverted' ? falls : rises,
    falls: sense === 'unknown' ? rises | falls : sense === 'inverted' ? rises : falls,
    domain: domainOfGate(bit, operands, clocks),
    sources: sourcesOfGate(clocks, sense),
    gate,
  };
}

export type Sense = 'straight' | 'inverted' | 'unknown';

/** Whether the output of a gate follows its clock, turned or not; unknown for exclusive or and for other logic. */
export function senseOf(step: GateStep, { clocks, controls }: ClockOperands): Sense {
  if (step.shape === 'xor' || step.shape === 'other') return 'unknown';
  const selectIsClock = step.selects.some((select) => clocks.some((clock) => sameBit(clock, select)));
  if (step.shape === 'choice' && (selectIsClock || controls.length < step.selects.length)) return 'unknown';
  return step.inverted ? 'inverted' : 'straight';
}

function kindOfGate({ style, controls }: ClockOperands): ClockKind {
  if (style === 'switch') return 'switched';
  return style === 'decode' || controls.length === 0 ? 'derived' : 'gated';
}

/** Clocks of one domain stay in it; a choice between clocks is a domain of its own (definition 5), as is any other mix. */
function domainOfGate(bit: Bit, { style }: ClockOperands, clocks: readonly ClockWalk[]): Bit | null {
  const [first, ...others] = clocks.map((clock) => clock.domain);
  if (style === 'switch') return bit;
  if (first === null || others.some((domain) => domain === null)) return null;
  return others.every((domain) => domain !== null && sameBit(domain, first)) ? first : bit;
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

// Definition 1 to 5, bit by bit: from a clock pin back to its roots, with the stages, edges and domain on the way. Each
// bit is walked once. A clock that hangs on itself has no root; what its gates say about soundness is `gate-facts.ts`.

import { bitKey } from '../netlist/bit-key';
import type { Bit, EdgeKind, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { cellStep } from './cells';
import { type ClockOperands, clockOperands } from './clock-operands';
import { type ClockWalk, edgesOfPin, openWalk, turnedSense } from './clock-walk';
import { type Context, opOf, sourceOf } from './context';
import { bothEdges, edgeSet } from './edge-set';
import { type GateStep, stepOf } from './gate-shape';
import { createMemoWalk, type MemoWalk } from './memo-walk';
import type { ClockKind } from './network';
import { createOperandEvidence } from './operand-evidence';
import { throughGate } from './through-gate';

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

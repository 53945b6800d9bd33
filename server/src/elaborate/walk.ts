// What following the statements of a process needs at hand, and how names read there.

import type { NodeId } from '../netlist/netlist';
import type { At, Statement } from '../syntax/tables';
import type { Reader } from './algebra';
import { certain } from './conditions';
import { contextIn } from './constants';
import { assignedSignals } from './assigned-signals';
import type { BitRange } from './draft-nodes';
import { type Layer, writeSlice } from './environment';
import type { ExpressionContext } from './expression-context';
import type { LocalSignal } from './local-signal';
import { type ModuleDraft, type Path, type ProcessDraft, signalAt } from './module-draft';
import { createNodeReader } from './process-reader';
import type { Scope } from './scope';
import { Op } from '../netlist/operators';

export interface Walk {
  readonly draft: ModuleDraft;
  readonly process: ProcessDraft;
  /** All that the walk follows. */
  readonly body: Statement;
  /**
   * A level process keeps what it does not assign in latches, bit by bit; a clocked one in its registers, so that a
   * write at a variable index may read the rest.
   */
  readonly style: 'level' | 'clocked';
  /** Counts one statement; a nest of loops must end somewhere. */
  readonly step: () => void;
  /** The process has used up its statements or the module its nodes. */
  readonly isExhausted: () => boolean;
}

/** A block or task that may be left early. */
export interface Exit {
  readonly scope: Scope;
  /** Private, one bit: 1 where it has been left. */
  readonly flag: LocalSignal;
  /** The conditions under which it is left, as met so far; null: none. */
  readonly leavings: (Path | null)[];
}

/** Where in the process a statement is followed. */
export interface Position {
  readonly layer: Layer;
  readonly scope: Scope;
  readonly path: Path | null;
  readonly depth: number;
  /** The blocks and tasks around the statement that some statement inside them leaves early, outermost first. */
  readonly exits: readonly Exit[];
}

export interface Surroundings {
  readonly context: ExpressionContext;
  readonly reader: Reader<NodeId>;
}

export function surroundingsOf({ draft, process }: Walk, { layer, scope }: Position): Surroundings {
  return { context: contextIn(draft, scope), reader: createNodeReader(draft, process, layer) };
}

/** A statement that cannot be followed: all it may assign is unknown from here on, now and at the next edge. */
export function giveUp(walk: Walk, position: Position, statement: Statement, complaint: number): void {
  for (const signal of assignedSignals(position.scope, statement)) {
    if (signal.shape.kind === 'variable') writeHole(walk, position, signal.index, statement, complaint);
  }
}

export function writeHole(
  { draft }: Walk,
  { layer }: Position,
  signal: number,
  { at }: Pick<Statement, 'at'>,
  complaint: number,
): void {
  const { width } = signalAt(draft, signal).shape;
  const place = draft.source.place(at);
  const value = draft.nodes.add(Op.hole, width, [], complaint, place);
  const slice = { low: 0, width, value, assigned: certain(draft.nodes, 1, place), holdAt: null };
  writeSlice(layer, 'now', signal, slice, draft.nodes);
  writeSlice(layer, 'next', signal, slice, draft.nodes);
}

/** The first assignment of the process to any of the bits. */
export function firstAssignment({ draft, process }: Walk, signal: number, { low, width }: BitRange): At {
  const found = process.assignments.find(
    (assignment) =>
      assignment.signal === signal && assignment.low < low + width && low < assignment.low + assignment.width,
  );
  return found?.at ?? signalAt(draft, signal).at;
}

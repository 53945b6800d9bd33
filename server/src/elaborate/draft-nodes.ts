// Source nodes that only a draft has, told apart by operator; `finish-template.ts` puts the real ones in their place.
//   net       the signal numbered by its aux, read whole
//   register  a hold, numbered by its aux: a signal as a process keeps it where it does not assign it
//   input     an import, numbered by its aux

import type { NetPieceId, NodeId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sliceOf } from '../netlist/node-makers';
import type { At } from '../syntax/tables';
import type { LocalSignal } from './local-signal';
import type { ModuleDraft } from './module-draft';
import { numberOf } from './numbered';
import type { Import } from './template';

type Draft = Pick<ModuleDraft, 'nodes' | 'source' | 'imports' | 'holds'>;

export interface BitRange {
  readonly low: number;
  readonly width: number;
}

/** Bits [low + width - 1 : low] of a signal as anyone reads it. */
export function readNode(draft: Draft, signal: LocalSignal, { low, width }: BitRange, at: At): NodeId {
  signal.draft ??= draft.nodes.net(signal.index as NetPieceId, signal.shape.width, draft.source.place(signal.at));
  return sliceOf(draft.nodes, signal.draft, low, width, draft.source.place(at));
}

/** The same bits as the process that owns them keeps them: its own registers, never another driver's value. */
export function holdNode(draft: Draft, process: number, signal: LocalSignal, bits: BitRange, at: At): NodeId {
  const index = numberOf(draft.holds, { process, signal: signal.index });
  const whole = draft.nodes.add(Op.register, signal.shape.width, [], index, draft.source.place(signal.at));
  return sliceOf(draft.nodes, whole, bits.low, bits.width, draft.source.place(at));
}

export function importNode(draft: Draft, entry: Import, width: number, at: At): NodeId {
  return draft.nodes.add(Op.input, width, [], numberOf(draft.imports, entry), draft.source.place(at));
}

// What the last step over a module shares: the draft, what it came to, and the nodes being made.

import type { NetPiece, NetPieceId, NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import type { FinishedMemories } from './finish-memories';
import type { LocalSignal } from './local-signal';
import type { LatchDraft, ModuleDraft, RegisterDraft } from './module-draft';
import type { DriverPiece } from './pieces';
import type { SettledDrivers } from './settle-drivers';
import type { StartValues } from './start-store';

export interface Finishing {
  readonly draft: ModuleDraft;
  readonly start: StartValues;
  readonly settled: SettledDrivers;
  readonly made: NodeBuilder;
  readonly signals: readonly FinishedSignal[];
  readonly pieces: readonly NetPiece[];
  readonly outputs: StateOutputs;
  readonly memories: FinishedMemories;
  convert(node: NodeId): NodeId;
}

/** The output node of each register and latch. */
export type StateOutputs = ReadonlyMap<RegisterDraft | LatchDraft, NodeId>;

export interface FinishedSignal {
  readonly signal: LocalSignal;
  readonly node: NodeId;
  readonly pieces: readonly { readonly id: NetPieceId; readonly net: NodeId; readonly piece: DriverPiece }[];
}

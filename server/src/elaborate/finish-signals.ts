// One net per piece of every listed signal, waiting for its driver, so that anything may read anything. A net's place is
// where it is driven; its signal's is the declaration.

import type { NetPiece, NetPieceId, NodeId, SignalId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import { concatOf, sliceOf } from '../netlist/node-makers';
import type { FinishedSignal } from './finishing';
import type { LocalSignal } from './local-signal';
import type { DriverDraft, ModuleDraft } from './module-draft';
import { type DriverPiece, piecesOf } from './pieces';

export interface NamedSignals {
  readonly signals: readonly FinishedSignal[];
  readonly pieces: readonly NetPiece[];
}

/** Yields now and then. */
export function* nameSignals(
  draft: ModuleDraft,
  made: NodeBuilder,
  drivers: readonly DriverDraft[],
): Generator<void, NamedSignals> {
  const bySignal = new Map<number, DriverDraft[]>();
  for (const driver of drivers) {
    const list = bySignal.get(driver.signal);
    if (list === undefined) bySignal.set(driver.signal, [driver]);
    else list.push(driver);
  }
  const pieces: NetPiece[] = [];
  const signals: FinishedSignal[] = [];
  for (const signal of draft.signals) {
    signals.push(nameSignal(draft, made, signal, bySignal.get(signal.index) ?? [], pieces));
    if (signals.length % 256 === 0) yield;
  }
  return { signals, pieces };
}

function nameSignal(
  draft: ModuleDraft,
  made: NodeBuilder,
  signal: LocalSignal,
  drivers: readonly DriverDraft[],
  pieces: NetPiece[],
): FinishedSignal {
  const place = draft.source.place(signal.at);
  const cut = piecesWithPulls(draft, signal, drivers);
  const nets = cut.map((piece) => {
    const id = pieces.length as NetPieceId;
    const [first] = piece.drivers;
    const net = made.net(id, piece.width, first === undefined ? place : draft.source.place(first.at));
    pieces.push({ id, signal: signal.index as SignalId, low: piece.low, width: piece.width, node: net });
    return { id, net, piece };
  });
  const parts: NodeId[] = nets.map(({ net }) => net).reverse();
  return { signal, node: concatOf(made, parts, place), pieces: nets };
}

/** An inout is what its surroundings resolve it to; what drives it here goes out to them instead. */
function piecesWithPulls(draft: ModuleDraft, signal: LocalSignal, drivers: readonly DriverDraft[]): DriverPiece[] {
  const { width } = signal.shape;
  const outside: DriverDraft = {
    signal: signal.index,
    low: 0,
    width,
    value: { kind: 'outside' },
    process: null,
    at: signal.at,
    canRelease: signal.port === 'inout',
    isContinuous: false,
  };
  if (signal.port === 'inout') return piecesOf(width, [outside], []);
  const pulls = draft.pulls.filter((pull) => pull.signal === signal.index);
  return piecesOf(width, signal.port === 'input' ? [outside, ...drivers] : drivers, pulls);
}

/** Bits [low + width - 1 : low] of a named signal, out of its pieces. */
export function bitsOfSignal(made: NodeBuilder, { node, pieces }: FinishedSignal, low: number, width: number): NodeId {
  const place = made.places[made.nodes.place[node]];
  if (width === made.nodes.width[node]) return node;
  const parts: NodeId[] = [];
  for (let index = pieceAt(pieces, low); index < pieces.length && pieces[index].piece.low < low + width; index++) {
    const { net, piece } = pieces[index];
    const from = Math.max(low, piece.low);
    const until = Math.min(low + width, piece.low + piece.width);
    parts.unshift(sliceOf(made, net, from - piece.low, until - from, place));
  }
  return concatOf(made, parts, place);
}

/** The piece that holds a bit. */
function pieceAt(pieces: FinishedSignal['pieces'], bit: number): number {
  let from = 0;
  let until = pieces.length;
  while (from < until) {
    const middle = (from + until) >>> 1;
    if (pieces[middle].piece.low + pieces[middle].piece.width > bit) until = middle;
    else from = middle + 1;
  }
  return from;
}

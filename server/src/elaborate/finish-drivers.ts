// Gives every net its driver: the one there is, several resolved by the net's type (IEEE 1364-2005 4.6), or nothing.
// Bits of an inout that are driven here become an export: the surroundings resolve them.

import { bitsOf } from '../netlist/four-state';
import type { Driver, NodeId, ProcessId, SignalId } from '../netlist/netlist';
import { concatOf, sliceOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import { impossible } from '../text/impossible';
import { delayIndex } from './continuous';
import { importNode } from './draft-nodes';
import type { FinishedSignal, Finishing, StateOutputs } from './finishing';
import { type LocalSignal, resolutionOf } from './local-signal';
import type { DriverDraft, LatchDraft, RegisterDraft } from './module-draft';
import { type DriverPiece, piecesOf } from './pieces';
import type { SharedDrivers } from './template';

/** Yields now and then. */
export function* driveNets(finishing: Finishing): Generator<void, SharedDrivers[]> {
  const shared: SharedDrivers[] = [];
  let count = 0;
  for (const finished of finishing.signals) {
    for (const { net, piece } of finished.pieces) {
      count++;
      if (count % 256 === 0) yield;
      finishing.made.drive(net, pieceValue(finishing, finished.signal, piece));
      if (piece.drivers.length > 1) shared.push(sharedDrivers(finishing, finished.signal, piece));
    }
  }
  return shared;
}

/** What the module drives onto each inout signal, whole, z where it does not. Adds to the shared drivers. */
export function exportsOf(finishing: Finishing, shared: SharedDrivers[]): Map<number, NodeId> {
  const found = new Map<number, NodeId>();
  for (const { signal } of finishing.signals) {
    if (signal.port !== 'inout') continue;
    const drivers = finishing.settled.drivers.filter((driver) => driver.signal === signal.index);
    if (drivers.length === 0) continue;
    const place = finishing.draft.source.place(signal.at);
    const pieces = piecesOf(signal.shape.width, drivers, []);
    for (const piece of pieces) if (piece.drivers.length > 1) shared.push(sharedDrivers(finishing, signal, piece));
    const parts = pieces.map((piece) =>
      piece.drivers.length === 0
        ? finishing.made.constant(bitsOf('z'.repeat(piece.width)), place)
        : pieceValue(finishing, signal, piece),
    );
    found.set(signal.index, concatOf(finishing.made, parts.reverse(), place));
  }
  return found;
}

function pieceValue(finishing: Finishing, signal: LocalSignal, piece: DriverPiece): NodeId {
  const { draft, made } = finishing;
  const place = draft.source.place(signal.at);
  const value = resolved(finishing, signal, piece);
  const delay = draft.netDelays.get(signal.index);
  if (delay === undefined || piece.drivers.length === 0) return value;
  const index = delayIndex(draft, delay.scope, delay.table);
  return index < 0 ? value : made.add(Op.delay, piece.width, [value], index, place);
}

function resolved(finishing: Finishing, signal: LocalSignal, piece: DriverPiece): NodeId {
  const { draft, made } = finishing;
  const { low, width, drivers } = piece;
  const place = draft.source.place(signal.at);
  const { type } = signal.shape;
  if (type === 'supply0' || type === 'supply1') return made.constant(bitsOf(type.slice(-1).repeat(width)), place);
  const kind = piece.pull ?? resolutionOf(type);
  const isPulled = kind === 'tri0' || kind === 'tri1';
  const operands = drivers.map((driver) => {
    return sliceOf(made, driverNode(finishing, driver), low - driver.low, width, place);
  });
  if (operands.length === 1 && !isPulled) return operands[0];
  if (operands.length === 0) {
    const whole = made.add(Op.undriven, signal.shape.width, [], signal.index, place);
    operands.push(sliceOf(made, whole, low, width, place));
    if (!isPulled) return operands[0];
  }
  return made.add(Op.resolve, width, operands, made.addResolution(kind, signal.index as SignalId), place);
}

/** The driver's own value, of the driver's width. */
function driverNode(finishing: Finishing, { value, signal, at }: DriverDraft): NodeId {
  const { draft, outputs } = finishing;
  switch (value.kind) {
    case 'node':
      return finishing.convert(value.node);
    case 'register':
      return stateNode(outputs, value.register);
    case 'latch':
      return stateNode(outputs, value.latch);
    case 'outside':
      return finishing.convert(importNode(draft, { kind: 'port', signal }, draft.signals[signal].shape.width, at));
  }
}

function stateNode(outputs: StateOutputs, state: RegisterDraft | LatchDraft): NodeId {
  return outputs.get(state) ?? impossible(`signal ${state.signal} is driven by a state that was dropped`);
}

function sharedDrivers(finishing: Finishing, signal: LocalSignal, piece: DriverPiece): SharedDrivers {
  const drivers = piece.drivers.map(
    (driver): Driver => ({
      signal: signal.index as SignalId,
      low: driver.low,
      width: driver.width,
      node: driverNode(finishing, driver),
      process: driver.process as ProcessId | null,
      place: finishing.draft.source.place(driver.at),
      canRelease: driver.canRelease,
    }),
  );
  return { signal: signal.index as SignalId, low: piece.low, width: piece.width, drivers };
}

/** Port signals that may be z from inside. */
export function releasingSignals({ settled, signals }: Finishing): Set<number> {
  const ports = new Set(signals.filter(isOutward).map(({ signal }) => signal.index));
  return new Set(
    settled.drivers.filter(({ signal, canRelease }) => canRelease && ports.has(signal)).map(({ signal }) => signal),
  );
}

function isOutward({ signal }: FinishedSignal): boolean {
  return signal.port === 'output' || signal.port === 'inout';
}

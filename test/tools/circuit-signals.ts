// Signals and the nets that carry them, for circuits by hand.

import type { Bit, NetPiece, NetPieceId, NodeId, Signal, SignalId } from '../../server/src/netlist/netlist';
import type { NodeBuilder } from '../../server/src/netlist/node-builder';
import { concatOf } from '../../server/src/netlist/node-makers';
import { Op } from '../../server/src/netlist/operators';
import type { Place } from '../../server/src/text/place';
import type { Places, Scopes } from './circuit-places';
import type { Declaration, Wire } from './circuit-types';
import { wireOf } from './circuit-wires';

export interface Stretch {
  readonly low: number;
  readonly width: number;
}

/** A signal whose nets wait for their drivers, least significant first. */
export interface Declared {
  readonly id: SignalId;
  readonly name: string;
  readonly place: Place;
  readonly nets: readonly NodeId[];
  readonly whole: Wire;
}

export interface Signals {
  readonly signals: readonly Signal[];
  readonly pieces: readonly NetPiece[];
  /** Declares a signal out of stretches, least significant first; each is a net of its own. */
  declare(name: string, declaration: Declaration, type: string, stretches: readonly Stretch[]): Declared;
  /** A net's bit in its module's own words; null for a bit of anything else. */
  textOf(bit: Bit): string | null;
}

export function createSignals(builder: NodeBuilder, places: Places, scopes: Scopes): Signals {
  const signals: Signal[] = [];
  const pieces: NetPiece[] = [];

  function addPiece(signal: SignalId, { low, width }: Stretch, place: Place): NetPiece {
    const id = pieces.length as NetPieceId;
    const piece: NetPiece = { id, signal, low, width, node: builder.net(id, width, place) };
    pieces.push(piece);
    return piece;
  }

  return {
    signals,
    pieces,
    declare(name, declaration, type, stretches) {
      const place = places.next(name);
      const id = signals.length as SignalId;
      const own = stretches.map((stretch) => addPiece(id, stretch, place));
      const nets = own.map(({ node }) => node);
      const whole = wireOf(builder, places, concatOf(builder, nets.slice().reverse(), place));
      const [msb, lsb] = declaration.range ?? [whole.width - 1, 0];
      signals.push({
        id,
        name,
        localName: name.slice(name.lastIndexOf('.') + 1),
        instance: scopes.instanceOf(name),
        width: whole.width,
        msb,
        lsb,
        scalar: whole.width === 1 && declaration.range === undefined,
        signed: declaration.signed ?? false,
        kind: type === 'reg' ? 'variable' : 'net',
        type,
        port: declaration.port ?? null,
        node: whole.node,
        pieces: own.map((piece) => piece.id),
        place,
      });
      return { id, name, place, nets, whole };
    },
    textOf({ node, bit }) {
      if (builder.nodes.op[node] !== Op.net) return null;
      const piece = pieces[builder.nodes.aux[node]];
      const { scalar, localName, msb, lsb } = signals[piece.signal];
      const index = piece.low + bit;
      return scalar ? localName : `${localName}[${msb >= lsb ? lsb + index : lsb - index}]`;
    },
  };
}

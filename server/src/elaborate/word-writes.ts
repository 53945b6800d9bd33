// A write to an array at an index that varies: each word is written where the index meets it, and else left alone
// (definition 11: such an array is a memory). An unknown index merges what each word has with what it would get.

import { fromNumber } from '../netlist/four-state';
import type { NodeId } from '../netlist/netlist';
import { muxOf } from '../netlist/node-makers';
import { Op } from '../netlist/operators';
import type { At } from '../syntax/tables';
import { both, certain, chooseCondition } from './conditions';
import { createLayer } from './environment';
import { mergeBranches } from './merge-layers';
import { notePort, type Path } from './module-draft';
import { compare } from './narrow-comparison';
import type { ArrayEntity } from './scope';
import type { TargetPart } from './targets';
import type { Position, Walk } from './walk';

type WordsPart = Extract<TargetPart<NodeId>, { kind: 'words' }>;
type OneWord = Extract<TargetPart<NodeId>, { kind: 'slice' | 'variable' }>;

/** `write`: assigns a part of one word where the position says. */
export function writeWords(
  walk: Walk,
  position: Position,
  at: At,
  part: WordsPart,
  write: (inner: Position, word: OneWord) => void,
): void {
  const { draft, process } = walk;
  const { nodes, source } = draft;
  const place = source.place(at);
  notePort(process, { array: part.array, kind: 'write', at });
  for (const [index, signal] of (part.array.words ?? []).entries()) {
    const coordinates = coordinatesOf(part.array, index);
    const hit = hitOf(walk, part, coordinates, at);
    if (hit === null) continue;
    const layer = createLayer(position.layer);
    const path: Path = { outer: position.path, at, text: () => hitText(walk, part, coordinates), node: () => hit };
    const { low, width } = part;
    const word = part.index === null ? { kind: 'slice', low } : { kind: 'variable', index: part.index };
    write({ ...position, layer, path }, { ...word, signal, width } as OneWord);
    const branches = [
      { layer, at },
      { layer: createLayer(position.layer), at },
    ];
    const choice = {
      value: ([one, zero]: readonly NodeId[]) => muxOf(nodes, hit, one, zero, place),
      condition: ([one, zero]: readonly NodeId[]) => chooseCondition(nodes, hit, one, zero, place),
    };
    mergeBranches({ draft, process: process.index, into: position.layer, branches, choice, at });
    walk.step();
  }
}

/** Offsets of a word in each dimension, outermost first. */
function coordinatesOf({ dimensions }: ArrayEntity, index: number): number[] {
  let rest = index;
  const coordinates: number[] = [];
  for (const { size } of [...dimensions].reverse()) {
    coordinates.unshift(rest % size);
    rest = Math.floor(rest / size);
  }
  return coordinates;
}

/** Whether the indices meet a word, width 1; null where a known one does not. */
function hitOf(
  { draft: { nodes, source } }: Walk,
  { array, offsets }: WordsPart,
  coordinates: readonly number[],
  at: At,
): NodeId | null {
  const place = source.place(at);
  let hit = certain(nodes, 1, place);
  for (const [level, offset] of offsets.entries()) {
    if (offset.kind === 'nowhere') return null;
    if (offset.kind === 'fixed') {
      if (offset.offset !== coordinates[level]) return null;
      continue;
    }
    const wanted = array.dimensions[level].first + coordinates[level];
    const met = nodes.constant(fromNumber(nodes.nodes.width[offset.index], wanted), place);
    hit = both(nodes, hit, compare(nodes, Op.equal, offset.index, met, place), place);
  }
  return hit;
}

function hitText(
  { draft: { source } }: Walk,
  { array, indices, offsets }: WordsPart,
  coordinates: readonly number[],
): string {
  return coordinates
    .flatMap((coordinate, level) =>
      offsets[level].kind === 'fixed'
        ? []
        : [`${source.textOf(indices[level].at)} == ${array.dimensions[level].first + coordinate}`],
    )
    .join(' && ');
}

// What a name at a caret means, and all its uses wherever they stand. Another reading means the same where it finds the
// declaration at the same place.

import type { Position } from 'vscode-languageserver';
import { type EveryUse, listEveryName } from '../../report/name-table';
import type { Study } from '../../report/study';
import { compareText } from '../../text/compare';
import type { Span } from '../../text/place';
import type { Reading } from '../../syntax/read';
import { touches } from './positions';
import type { WorkspaceView } from './workspace-view';

export interface Meant {
  readonly name: string;
  /** The use at the caret. */
  readonly here: EveryUse;
  /** Empty where nothing declares it. */
  readonly declared: readonly Span[];
  /** Units whose text declares it; where nothing does, those that use it. */
  readonly units: readonly string[];
}

/** None where no name stands, two at `.clk` alone: the port, then the signal. */
export function* meantAt(study: Study, path: string, position: Position): Generator<void, readonly Meant[]> {
  const reading = yield* study.reading();
  const uses = (yield* listEveryName(reading)).filter(({ isMade }) => !isMade);
  const here = uses.filter(({ span }) => span.file === path && touches(span, position));
  return here.map((use) => {
    const same = uses.filter(({ meaning }) => meaning === use.meaning);
    const declaring = same.filter(({ role }) => role === 'declared');
    const units = new Set((declaring.length > 0 ? declaring : same).map(({ unit }) => unit));
    return {
      name: use.name,
      here: use,
      declared: declaring.map(({ span }) => span),
      units: [...units].flatMap((unit) => unitName(reading, unit)),
    };
  });
}

/** None for what stands outside every unit, which is known in its own file alone. */
function unitName({ units }: Reading, unit: number): readonly string[] {
  const { name } = units[unit].table;
  return name === null ? [] : [name.name];
}

/** A reading and those of its uses that mean what was asked for. */
export interface ReadUses {
  readonly reading: Reading;
  readonly all: readonly EveryUse[];
  readonly uses: readonly EveryUse[];
}

/** The study itself first, then every reading of the workspace. */
export function* usesEverywhere(
  study: Study,
  { declared, here }: Meant,
  { readings }: WorkspaceView,
): Generator<void, readonly ReadUses[]> {
  const own = yield* study.reading();
  const places = new Set(declared.map(placeOf));
  const found: ReadUses[] = [];
  for (const reading of [own, ...readings.map((each) => each.reading)]) {
    const all = yield* listEveryName(reading);
    const isSame = (use: EveryUse) => use.role === 'declared' && places.has(placeOf(use.span));
    const meanings = new Set(all.filter(isSame).map(({ meaning }) => meaning));
    if (reading === own) meanings.add(here.meaning);
    found.push({ reading, all, uses: all.filter(({ meaning }) => meanings.has(meaning)) });
    yield;
  }
  return found;
}

/** Each place once, by file and place. */
export function distinctPlaces<Placed extends { readonly span: Span }>(uses: readonly Placed[]): readonly Placed[] {
  const distinct = [...new Map(uses.map((use) => [placeOf(use.span), use])).values()];
  return distinct.sort(
    ({ span: left }, { span: right }) =>
      compareText(left.file, right.file) || left.line - right.line || left.column - right.column,
  );
}

export function placeOf({ column, file, line }: Span): string {
  return `${line}:${column} ${file}`;
}

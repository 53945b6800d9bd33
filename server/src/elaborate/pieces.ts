// Cuts a signal at the borders of its drivers: each piece has the same drivers over all its bits, and is as long as
// that allows.

import type { BitRange } from './draft-nodes';
import type { DriverDraft, PullDraft } from './module-draft';

export interface DriverPiece extends BitRange {
  /** In order of declaration; empty where nothing drives. */
  readonly drivers: readonly DriverDraft[];
  /** The level that a pull gate gives the bits while nothing drives them. */
  readonly pull: PullDraft['kind'] | null;
}

/** The whole signal, lowest piece first, without gaps. */
export function piecesOf(width: number, drivers: readonly DriverDraft[], pulls: readonly PullDraft[]): DriverPiece[] {
  const [only] = drivers;
  const isWhole = drivers.length === 1 && pulls.length === 0 && only.low === 0 && only.width === width;
  if (isWhole) return [{ low: 0, width, drivers: [only], pull: null }];
  const borders = [...drivers, ...pulls].flatMap(({ low, width: length }) => [low, low + length]);
  const cuts = [...new Set([0, width, ...borders])].sort((left, right) => left - right);
  const starting = [...drivers].sort((left, right) => left.low - right.low);
  let active: DriverDraft[] = [];
  const pieces: DriverPiece[] = [];
  let next = 0;
  for (let index = 0; index + 1 < cuts.length; index++) {
    const low = cuts[index];
    for (; next < starting.length && starting[next].low <= low; next++) active.push(starting[next]);
    active = active.filter((driver) => driver.low + driver.width > low);
    const pull = pulls.find((entry) => entry.low <= low && low < entry.low + entry.width)?.kind ?? null;
    pieces.push({ low, width: cuts[index + 1] - low, drivers: inOrder(drivers, active), pull });
  }
  return joinedPieces(pieces);
}

function inOrder(all: readonly DriverDraft[], some: readonly DriverDraft[]): readonly DriverDraft[] {
  return some.length < 2 ? [...some] : all.filter((driver) => some.includes(driver));
}

/** Stretches that nothing drives may touch: they are one piece. */
function joinedPieces(pieces: readonly DriverPiece[]): DriverPiece[] {
  const result: DriverPiece[] = [];
  for (const piece of pieces) {
    const last = result.at(-1);
    const isSame =
      last !== undefined &&
      last.pull === piece.pull &&
      last.drivers.length === piece.drivers.length &&
      last.drivers.every((driver, index) => driver === piece.drivers[index]);
    if (isSame) result[result.length - 1] = { ...last, width: last.width + piece.width };
    else result.push(piece);
  }
  return result;
}

// The settling bands of a preview, and how long its readings are no readings: from the windows of the bits that are shown.

import type { Bit } from '../netlist/netlist';
import type { Window, Windows } from '../predict/windows';
import type { PreviewBand } from './preview-data';

/** Where there is something to hatch. */
export function bandsOf(windows: Windows, bits: readonly Bit[]): readonly PreviewBand[] {
  return joined(bandsByEdge(windows, bits).filter(({ from, to }) => from < to));
}

/** Of a value of several bits one per root edge, from the first bit's earliest change to the last one's latest. */
export function bandsByEdge(windows: Windows, bits: readonly Bit[]): readonly PreviewBand[] {
  const byEdge = new Map<number, PreviewBand>();
  for (const window of bits.flatMap((bit) => windows.of(bit))) {
    const known = byEdge.get(window.rootEdge);
    byEdge.set(window.rootEdge, known === undefined ? bandOf(window) : together(known, bandOf(window)));
  }
  return [...byEdge.values()];
}

function bandOf({ exact, from, moves, rootEdge, to }: Window): PreviewBand {
  return { from, to, rootEdge, moves, exact };
}

/** What moves in two places, or again, passes values on its way. */
function together(left: PreviewBand, right: PreviewBand): PreviewBand {
  return {
    from: Math.min(left.from, right.from),
    to: Math.max(left.to, right.to),
    rootEdge: Math.min(left.rootEdge, right.rootEdge),
    moves: 'many',
    exact: left.exact && right.exact,
  };
}

function joined(bands: readonly PreviewBand[]): readonly PreviewBand[] {
  const result: PreviewBand[] = [];
  for (const band of [...bands].sort((left, right) => left.from - right.from)) {
    const last = result[result.length - 1];
    if (last !== undefined && band.from <= last.to) result[result.length - 1] = together(last, band);
    else result.push(band);
  }
  return result;
}

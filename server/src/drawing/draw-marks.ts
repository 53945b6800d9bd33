// Marks above the waves: a filled triangle with the width where a pulse is certain, an outline where it is only possible,
// a question mark where a value is in doubt; and the settling bands behind them.

import type { PreviewGlitch, PreviewTrace } from '../report/preview-data';
import { type SeenSpan, spansIn, type TimeSpan } from './columns';
import { marginsOf } from './margins';
import type { Lane } from './rows';
import type { GlitchSpan, Scene } from './scene';
import { type Shape, textWidth } from './shape';
import { timeWindow, type View, xOf } from './view';
import { timeWords } from '../text/time-words';

/** From the earliest to the latest possible change. */
export function drawSettling(trace: PreviewTrace, view: View, { high, low }: Lane): readonly Shape[] {
  return spansIn(trace.settling, timeWindow(view)).map(({ from, to }) => {
    const x = xOf(view, from);
    const width = Math.max(1, xOf(view, to) - x);
    return { kind: 'texture', role: 'moving', pattern: 'moving', x, y: high, width, height: low - high };
  });
}

/** Where marks crowd, one stands for those under it; a width is written where nothing stands in its way. */
export function drawGlitches(
  scene: Scene,
  view: View,
  row: { readonly trace: number; readonly lane: Lane },
): readonly Shape[] {
  const seen = spansIn(scene.glitchSpans[row.trace], timeWindow(view));
  const places = seen.map(({ span }) => xOf(view, middleOf(span)));
  const left = marginsOf(view).left;
  const right = view.width - marginsOf(view).right;
  const shapes: Shape[] = [];
  let taken = Number.NEGATIVE_INFINITY;
  for (const [index, each] of seen.entries()) {
    const x = places[index];
    if (x - markSize < taken || x < left || x > right) continue;
    const next = places[index + 1] ?? right + textRoom;
    const drawn = drawGlitch(each, { x, room: next - markSize - x, y: row.lane.high - 2 });
    shapes.push(...drawn);
    taken = x + markSize;
  }
  return shapes;
}

export function drawDoubts(doubts: readonly TimeSpan[], view: View, { high }: Lane): readonly Shape[] {
  let taken = Number.NEGATIVE_INFINITY;
  return spansIn(doubts, timeWindow(view)).flatMap(({ from }): Shape[] => {
    const x = xOf(view, from);
    if (x - 4 < taken) return [];
    taken = x + 4;
    return [{ kind: 'text', role: 'unknown', x, y: high - 2, anchor: 'middle', face: 'value', text: '?' }];
  });
}

const markSize = 5;
/** Right of the waves a width may reach this far. */
const textRoom = 8;

function middleOf({ glitch: { at, until } }: GlitchSpan): number {
  return (at + until) / 2;
}

function drawGlitch(
  { more, span: { glitch } }: SeenSpan<GlitchSpan>,
  { room, x, y }: { readonly x: number; readonly y: number; readonly room: number },
): readonly Shape[] {
  const role = glitch.harmless ? 'quiet-glitch' : 'glitch';
  const form = glitch.certainty === 'certain' ? 'pointer' : 'open-pointer';
  const mark: Shape = { kind: 'mark', role, form, x, y, size: markSize };
  const text = more > 0 ? `${more + 1} pulses` : pulseText(glitch);
  if (textWidth(text, 'note') + markSize + 3 > room) return [mark];
  return [mark, { kind: 'text', role, x: x + markSize + 3, y, anchor: 'start', face: 'note', text }];
}

/** Of a pulse that may not come at all there is no width to tell. */
function pulseText({ at, certainty, until }: PreviewGlitch): string {
  return certainty === 'possible' || until === at ? 'possible' : timeWords(until - at);
}

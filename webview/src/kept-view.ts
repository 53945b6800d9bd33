// Where one looks, said by name and time instead of by index and pixel: it outlives the data that it was made for, and a
// reload of the page. What is not there any more is let go; what is new opens as it would on a new page.

import type { Scene } from '../../server/src/drawing/scene';
import { openingView, type Radix, type View } from '../../server/src/drawing/view';
import { focusAt } from './focus';
import { placed } from './window';

export interface KeptView {
  /** ps; null: the whole run, however long it is. */
  readonly window: { readonly from: number; readonly to: number } | null;
  /** px */
  readonly scroll: number;
  /** Every vector by name, with whether it is unfolded. */
  readonly folds: readonly (readonly [name: string, isUnfolded: boolean])[];
  /** `at`, ps; null: its start. */
  readonly focus: { readonly signal: string; readonly at: number | null } | null;
  readonly radix: Radix;
}

export function keptView({ data }: Scene, view: View): KeptView {
  const { focus, from, radix, scroll, to, unfolded } = view;
  const isWhole = from <= 0 && to >= data.end;
  return {
    window: isWhole ? null : { from, to },
    scroll,
    folds: data.traces.flatMap(({ name, width }, index) => (width > 1 ? [[name, unfolded.has(index)] as const] : [])),
    focus: focus === null ? null : keptFocus(data.traces[focus.trace], focus.change),
    radix,
  };
}

function keptFocus({ changes, name }: Scene['data']['traces'][number], change: number): KeptView['focus'] {
  return { signal: name, at: change < 0 ? null : changes.at[change] };
}

export function restoreView(
  kept: KeptView,
  scene: Scene,
  size: { readonly width: number; readonly height: number },
): View {
  const opening = openingView(scene.data, { width: size.width, height: size.height });
  const view = {
    ...opening,
    scroll: kept.scroll,
    radix: kept.radix,
    unfolded: restoredFolds(kept, scene, opening.unfolded),
    focus: restoredFocus(kept, scene),
  };
  if (kept.window === null) return view;
  const { from, to } = kept.window;
  return placed(scene, view, from, Math.min(to - from, opening.to));
}

function restoredFolds({ folds }: KeptView, { traceNamed }: Scene, opening: ReadonlySet<number>): ReadonlySet<number> {
  const unfolded = new Set(opening);
  for (const [name, isUnfolded] of folds) {
    const trace = traceNamed.get(name);
    if (trace === undefined) continue;
    if (isUnfolded) unfolded.add(trace);
    else unfolded.delete(trace);
  }
  return unfolded;
}

function restoredFocus({ focus }: KeptView, scene: Scene): View['focus'] {
  const trace = focus === null ? undefined : scene.traceNamed.get(focus.signal);
  if (focus === null || trace === undefined) return null;
  return focus.at === null ? { trace, change: -1 } : focusAt(scene, trace, focus.at);
}

// The picture under a person's hands: a canvas in a stage that scrolls, with keys, wheel and pointer. Both pages use it.
// Knows where one looks and nothing else: what is told of it is the page's.

import { isOnFoldSign } from '../../server/src/drawing/draw-labels';
import { marginsOf } from '../../server/src/drawing/margins';
import { drawPicture, type Picture } from '../../server/src/drawing/picture';
import { rowsOf, totalHeight } from '../../server/src/drawing/rows';
import type { Scene } from '../../server/src/drawing/scene';
import { timeAt, type View } from '../../server/src/drawing/view';
import { focusAt } from './focus';
import { hearGestures } from './gestures';
import { keptView, restoreView } from './kept-view';
import { paint } from './paint';
import { readPalette } from './palette';
import { type Step, stepOfKey, take, toggleFold } from './steps';

export interface SurfaceElements {
  /** Takes the focus and scrolls. */
  readonly stage: HTMLElement;
  /** What gives the stage its length to scroll through; the canvas in it is only as high as what is seen. */
  readonly extent: HTMLElement;
  readonly canvas: HTMLCanvasElement;
}

export interface SurfaceListener {
  /** A person went to another view, or another part of the same one. */
  moved(view: View, before: View): void;
  /** A person pressed the name of a trace; without this, a vector folds. */
  pressedName?(trace: number): void;
  /** After every painting. */
  painted?(view: View): void;
}

export interface Surface {
  scene(): Scene;
  view(): View;
  /** Shows another view without telling of it. */
  show(view: View): void;
  /** Shows other data; views that one can go back to follow by name. */
  replace(scene: Scene, view: View): void;
  /** As if a person had done it. */
  go(view: View): void;
  /** Like `go`, and one can come back. */
  visit(view: View): void;
  follow(step: Step): void;
}

export function createSurface(
  { canvas, extent, stage }: SurfaceElements,
  opening: { readonly scene: Scene; readonly view: View },
  listener: SurfaceListener,
): Surface {
  let { scene, view } = opening;
  let picture: Picture = drawPicture(scene, view);
  let trail: readonly View[] = [];
  let isWaiting = false;

  function show(next: View): void {
    view = next;
    if (isWaiting) return;
    isWaiting = true;
    requestAnimationFrame(repaint);
  }

  /** Once per turn of the screen, however many things changed. */
  function repaint(): void {
    isWaiting = false;
    extent.style.height = `${totalHeight(rowsOf(scene, view))}px`;
    stage.scrollTop = view.scroll;
    view = { ...view, width: stage.clientWidth, height: stage.clientHeight, scroll: stage.scrollTop };
    picture = drawPicture(scene, view);
    putOn(canvas, picture);
    listener.painted?.(view);
  }

  function go(next: View): void {
    const before = view;
    show(next);
    listener.moved(next, before);
  }

  function visit(next: View): void {
    trail = [...trail, view];
    go(next);
  }

  function follow(step: Step): void {
    if (step === 'back') {
      const last = trail.at(-1);
      trail = trail.slice(0, -1);
      if (last !== undefined) go(last);
    } else if (step === 'cause') visit(take(step, scene, view));
    else go(take(step, scene, view));
  }

  /** On the sign of a vector: folds. On a name: tells. On a wave: the edge at or before that instant. */
  function press(x: number, y: number): void {
    const row = picture.rows.find(({ height, top }) => y >= top && y < top + height);
    if (row?.kind !== 'trace') return;
    const time = Math.max(view.from, Math.min(timeAt(view, x), view.to));
    // What is pressed is seen already: nothing moves.
    const next = { ...view, focus: focusAt(scene, row.trace, time) };
    const isName = x < marginsOf(view).left;
    const folds = isName && (listener.pressedName === undefined || isOnFoldSign(scene, view, row.trace, x));
    go(folds ? toggleFold(scene, next, row.trace) : next);
    if (isName && !folds) listener.pressedName?.(row.trace);
  }

  stage.addEventListener('keydown', (event) => {
    const step = stepOfKey[event.key];
    if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    follow(step);
  });
  stage.addEventListener('scroll', () => {
    if (Math.abs(stage.scrollTop - view.scroll) >= 1) go({ ...view, scroll: stage.scrollTop });
  });
  hearGestures({ stage, canvas }, { scene: () => scene, view: () => view, go, press });
  new ResizeObserver(() => show(view)).observe(stage);
  for (const query of ['(prefers-color-scheme: dark)', '(forced-colors: active)']) {
    matchMedia(query).addEventListener('change', () => show(view));
  }
  show(view);

  return {
    scene: () => scene,
    view: () => view,
    show,
    replace(nextScene, nextView) {
      trail = trail.map((each) => restoreView(keptView(scene, each), nextScene, nextView));
      scene = nextScene;
      show(nextView);
    },
    go,
    visit,
    follow,
  };
}

function putOn(canvas: HTMLCanvasElement, picture: Picture): void {
  const ratio = devicePixelRatio;
  canvas.width = Math.round(picture.width * ratio);
  canvas.height = Math.round(picture.height * ratio);
  canvas.style.width = `${picture.width}px`;
  canvas.style.height = `${picture.height}px`;
  const surface = canvas.getContext('2d');
  if (surface === null) return;
  surface.setTransform(ratio, 0, 0, ratio, 0, 0);
  paint(surface, picture, readPalette(canvas));
}

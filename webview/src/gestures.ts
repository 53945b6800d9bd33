// Wheel and pointer over the picture. A press that moves drags the waves along; one that does not is a click.

import type { Scene } from '../../server/src/drawing/scene';
import { plotWidth, timeAt, type View } from '../../server/src/drawing/view';
import { pan, zoom } from './window';

export interface GestureTarget {
  scene(): Scene;
  view(): View;
  go(view: View): void;
  /** px in the canvas */
  press(x: number, y: number): void;
}

export function hearGestures(
  { canvas, stage }: { readonly stage: HTMLElement; readonly canvas: HTMLCanvasElement },
  target: GestureTarget,
): void {
  stage.addEventListener('wheel', (event) => onWheel(event, target), { passive: false });
  canvas.addEventListener('pointerdown', (event) => {
    if (event.button === 0) onPress(event, canvas, target);
  });
}

/** Sideways it pans; with Ctrl, or a pinch, it zooms about the pointer. Up and down it scrolls as ever. */
function onWheel(event: WheelEvent, { scene, view, go }: GestureTarget): void {
  const isSideways = event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY);
  if (!event.ctrlKey && !isSideways) return;
  event.preventDefault();
  const seen = view();
  if (event.ctrlKey) go(zoom(scene(), seen, event.deltaY > 0 ? 1.25 : 0.8, timeAt(seen, event.offsetX)));
  else go(pan(scene(), seen, (event.deltaX || event.deltaY) / plotWidth(seen)));
}

function onPress(
  press: PointerEvent,
  canvas: HTMLCanvasElement,
  { scene, view, go, press: click }: GestureTarget,
): void {
  const begin = view();
  let isDragged = false;
  canvas.setPointerCapture(press.pointerId);
  const onMove = (event: PointerEvent) => {
    const moved = press.clientX - event.clientX;
    isDragged ||= Math.abs(moved) > 3;
    if (!isDragged) return;
    const { from, to } = pan(scene(), begin, moved / plotWidth(begin));
    go({ ...view(), from, to });
  };
  canvas.addEventListener('pointermove', onMove);
  const onEnd = () => {
    canvas.removeEventListener('pointermove', onMove);
    if (!isDragged) click(press.offsetX, press.offsetY);
  };
  canvas.addEventListener('lostpointercapture', onEnd, { once: true });
}

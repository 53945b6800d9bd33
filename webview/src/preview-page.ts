// The page that `foretick preview` writes: one canvas, one keyboard, one account. Reads its data from the page itself,
// asks nobody for anything. Names from the design reach the page as text only.

import { drawPicture, type Picture } from '../../server/src/drawing/picture';
import { rowsOf, totalHeight } from '../../server/src/drawing/rows';
import { sceneOf } from '../../server/src/drawing/scene';
import { openingView, timeAt, type View } from '../../server/src/drawing/view';
import type { PreviewData } from '../../server/src/report/preview-data';
import { type AccountLine, accountLines } from './accounts';
import { focusAt, focusOnLink, withFocus } from './focus';
import { element, make } from './page-elements';
import { paint } from './paint';
import { readPalette } from './palette';
import { type Step, stepOfKey, take, toggleFold } from './steps';
import { pan, zoom } from './window';

const scene = sceneOf(JSON.parse(element('data').textContent ?? 'null') as PreviewData);
const canvas = element('waves') as HTMLCanvasElement;
const stage = element('stage');
/** What gives the stage its length to scroll through; the canvas in it is only as high as what is seen. */
const extent = element('extent');
/** Views left by going to a cause, so that one can go back. */
const trail: View[] = [];
let view: View = openingView(scene.data, { width: stage.clientWidth, height: innerHeight });
let picture: Picture = drawPicture(scene, view);
let isWaiting = false;

stage.addEventListener('keydown', onKey);
stage.addEventListener('wheel', onWheel, { passive: false });
stage.addEventListener('scroll', () => {
  if (Math.abs(stage.scrollTop - view.scroll) >= 1) show({ ...view, scroll: stage.scrollTop });
});
canvas.addEventListener('pointerdown', onPress);
element('radix').addEventListener('change', (event) => {
  show({ ...view, radix: (event.target as HTMLSelectElement).value as View['radix'] });
});
for (const button of document.querySelectorAll<HTMLButtonElement>('button[data-step]')) {
  button.addEventListener('click', () => follow(button.dataset.step as Step));
}
new ResizeObserver(() => show(view)).observe(stage);
for (const query of ['(prefers-color-scheme: dark)', '(forced-colors: active)']) {
  matchMedia(query).addEventListener('change', () => show(view));
}
show(view);

function follow(step: Step): void {
  if (step === 'cause') trail.push(view);
  show(step === 'back' ? (trail.pop() ?? view) : take(step, scene, view));
}

function show(next: View): void {
  if (next.focus !== view.focus || next.radix !== view.radix) tell(next);
  view = next;
  if (isWaiting) return;
  isWaiting = true;
  requestAnimationFrame(repaint);
}

function tell(next: View): void {
  element('account').replaceChildren(...accountLines(scene, next).map(accountItem));
}

/** Once per turn of the screen, however many things changed. */
function repaint(): void {
  isWaiting = false;
  extent.style.height = `${totalHeight(rowsOf(scene, view))}px`;
  stage.scrollTop = view.scroll;
  view = { ...view, width: stage.clientWidth, height: stage.clientHeight, scroll: stage.scrollTop };
  picture = drawPicture(scene, view);
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

function onKey(event: KeyboardEvent): void {
  const step = stepOfKey[event.key];
  if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  follow(step);
}

/** Sideways it pans; with Ctrl, or a pinch, it zooms about the pointer. Up and down it scrolls as ever. */
function onWheel(event: WheelEvent): void {
  const isSideways = event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY);
  if (!event.ctrlKey && !isSideways) return;
  event.preventDefault();
  if (event.ctrlKey) show(zoom(scene, view, event.deltaY > 0 ? 1.25 : 0.8, timeAt(view, event.offsetX)));
  else show(pan(scene, view, ((event.deltaX || event.deltaY) / picture.width) * 2));
}

/** A press that moves drags the waves along; one that does not is a click. */
function onPress(press: PointerEvent): void {
  const begin = view;
  let isDragged = false;
  canvas.setPointerCapture(press.pointerId);
  const onMove = (event: PointerEvent) => {
    const moved = press.clientX - event.clientX;
    isDragged ||= Math.abs(moved) > 3;
    if (isDragged)
      show({
        ...pan(scene, begin, (timeAt(begin, moved) - timeAt(begin, 0)) / (begin.to - begin.from)),
        scroll: view.scroll,
        width: view.width,
      });
  };
  canvas.addEventListener('pointermove', onMove);
  const onEnd = () => {
    canvas.removeEventListener('pointermove', onMove);
    if (!isDragged) onClick(press);
  };
  canvas.addEventListener('lostpointercapture', onEnd, { once: true });
}

/** On a name: folds. On a wave: the edge at or before that instant. */
function onClick({ offsetX, offsetY }: MouseEvent): void {
  const row = picture.rows.find(({ top, height }) => offsetY >= top && offsetY < top + height);
  if (row?.kind !== 'trace') return;
  const time = timeAt(view, offsetX);
  const focus = focusAt(scene, row.trace, Math.max(view.from, Math.min(time, view.to)));
  // What is clicked is seen already: nothing moves.
  const next = { ...view, focus };
  show(time < view.from ? toggleFold(scene, next, row.trace) : next);
}

/** A cause can be gone to from its line too. */
function accountItem({ kind, link, words }: AccountLine): HTMLElement {
  const focus = kind === 'cause' && link !== null ? focusOnLink(scene, view, link) : null;
  if (focus === null) return make('li', { text: words, className: kind });
  const button = make('button', { text: words, className: 'go' });
  button.addEventListener('click', () => {
    trail.push(view);
    show(withFocus(scene, view, focus));
    stage.focus();
  });
  const item = make('li', { text: '', className: kind });
  item.append(button);
  return item;
}

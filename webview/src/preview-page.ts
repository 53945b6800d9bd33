// The page that `foretick preview` writes: one canvas, one keyboard, one account. Reads its data from the page itself,
// asks nobody for anything. Names from the design reach the page as text only.

import { drawPicture, type Picture } from '../../server/src/drawing/picture';
import { timeAt, type View } from '../../server/src/drawing/view';
import type { PreviewData } from '../../server/src/report/preview-data';
import { accountLines } from './accounts';
import { paint } from './paint';
import { readPalette } from './palette';
import { focusAt, pan, stepOfKey, take, toggleFold, withFocus, zoom } from './steps';

const data = JSON.parse(element('data').textContent ?? 'null') as PreviewData;
const canvas = element('waves') as HTMLCanvasElement;
const stage = element('stage');
let view: View = {
  width: stage.clientWidth,
  from: 0,
  to: Math.max(1, data.end),
  unfolded: new Set(data.traces.flatMap(({ width }, index) => (width > 1 && width <= 8 ? [index] : []))),
  radix: 'decimal',
  focus: null,
};
let picture: Picture = drawPicture(data, view);
let isWaiting = false;

stage.addEventListener('keydown', (event) => {
  const step = stepOfKey[event.key];
  if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  show(take(step, data, view));
});
stage.addEventListener('wheel', onWheel, { passive: false });
canvas.addEventListener('click', onClick);
element('radix').addEventListener('change', (event) => {
  show({ ...view, radix: (event.target as HTMLSelectElement).value as View['radix'] });
});
for (const button of document.querySelectorAll<HTMLButtonElement>('button[data-step]')) {
  button.addEventListener('click', () => show(take(button.dataset.step as Parameters<typeof take>[0], data, view)));
}
new ResizeObserver(() => show({ ...view, width: stage.clientWidth })).observe(stage);
for (const query of ['(prefers-color-scheme: dark)', '(forced-colors: active)']) {
  matchMedia(query).addEventListener('change', repaint);
}

function show(next: View): void {
  view = next;
  element('account').replaceChildren(...accountLines(data, view).map((words) => listItem(words)));
  repaint();
}

/** Once per turn, however many things changed. */
function repaint(): void {
  if (isWaiting) return;
  isWaiting = true;
  requestAnimationFrame(() => {
    isWaiting = false;
    picture = drawPicture(data, view);
    const ratio = devicePixelRatio;
    canvas.width = Math.round(picture.width * ratio);
    canvas.height = Math.round(picture.height * ratio);
    canvas.style.width = `${picture.width}px`;
    canvas.style.height = `${picture.height}px`;
    const surface = canvas.getContext('2d');
    if (surface === null) return;
    surface.setTransform(ratio, 0, 0, ratio, 0, 0);
    paint(surface, picture, readPalette(canvas));
  });
}

/** The wheel pans along; with Ctrl, or a pinch, it zooms about the pointer. Up and down it scrolls the page as ever. */
function onWheel(event: WheelEvent): void {
  if (event.ctrlKey) {
    event.preventDefault();
    show(zoom(data, view, event.deltaY > 0 ? 1.25 : 0.8, timeAt(view, event.offsetX)));
  } else if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
    event.preventDefault();
    show(pan(data, view, ((event.deltaX || event.deltaY) / picture.width) * 2));
  }
}

function onClick(event: MouseEvent): void {
  const row = picture.rows.find(({ top, height }) => event.offsetY >= top && event.offsetY < top + height);
  if (row?.kind !== 'trace') return;
  const time = timeAt(view, event.offsetX);
  if (time < view.from) show(toggleFold(data, { ...view, focus: focusAt(data, row.trace, view.from) }, row.trace));
  else show(withFocus(data, view, focusAt(data, row.trace, Math.min(time, data.end))));
}

function listItem(words: string): HTMLElement {
  const item = document.createElement('li');
  item.textContent = words;
  return item;
}

function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no ${id}`);
  return found;
}

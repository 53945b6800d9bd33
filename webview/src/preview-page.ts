// The page that `foretick preview` writes: one canvas, one keyboard, one account. Reads its data from the page itself,
// asks nobody for anything. Names from the design reach the page as text only.

import { sceneOf } from '../../server/src/drawing/scene';
import { openingView, type View } from '../../server/src/drawing/view';
import type { PreviewData } from '../../server/src/report/preview-data';
import { type AccountLine, accountLines } from './accounts';
import { focusOnLink, withFocus } from './focus';
import { element, make } from './page-elements';
import type { Step } from './steps';
import { createSurface } from './surface';

const scene = sceneOf(JSON.parse(element('data').textContent ?? 'null') as PreviewData);
const stage = element('stage');
const surface = createSurface(
  { stage, extent: element('extent'), canvas: element('waves') as HTMLCanvasElement },
  { scene, view: openingView(scene.data, { width: stage.clientWidth, height: innerHeight }) },
  {
    moved(view, before) {
      if (view.focus !== before.focus || view.radix !== before.radix) tell(view);
    },
  },
);

element('radix').addEventListener('change', (event) => {
  surface.go({ ...surface.view(), radix: (event.target as HTMLSelectElement).value as View['radix'] });
});
for (const button of document.querySelectorAll<HTMLButtonElement>('button[data-step]')) {
  button.addEventListener('click', () => surface.follow(button.dataset.step as Step));
}

function tell(view: View): void {
  element('account').replaceChildren(...accountLines(scene, view).map(accountItem));
}

/** A cause can be gone to from its line too. */
function accountItem({ kind, link, words }: AccountLine): HTMLElement {
  const focus = kind === 'cause' && link !== null ? focusOnLink(scene, surface.view(), link) : null;
  if (focus === null) return make('li', { text: words, className: kind });
  const button = make('button', { text: words, className: 'go' });
  button.addEventListener('click', () => {
    surface.visit(withFocus(scene, surface.view(), focus));
    stage.focus();
  });
  const item = make('li', { text: '', className: kind });
  item.append(button);
  return item;
}

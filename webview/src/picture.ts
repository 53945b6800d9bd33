// The picture with its toolbar, its tables and its account. Newer data takes the place of older without moving anything:
// window, folds and focus go by name.

import { type Scene, sceneOf } from '../../server/src/drawing/scene';
import { openingView, type View } from '../../server/src/drawing/view';
import type { PreviewData } from '../../server/src/report/preview-data';
import type { DrawingForm } from '../../server/src/editor/panel-messages';
import type { Span } from '../../server/src/text/place';
import { makeAccountView } from './account-view';
import { accountLines } from './accounts';
import type { CaretWish, Shown } from './conversation';
import { focusOnLink, withFocus, withTraceNamed } from './focus';
import { type Handout, handoutOf } from './handout';
import type { KeptState } from './host';
import { keptView, restoreView } from './kept-view';
import { make } from './page-elements';
import { makePictureBox } from './picture-box';
import { createSurface, type Surface } from './surface';
import { fillTables, makeTables } from './tables-view';
import { watchTheme } from './theme';
import { makeToolbar } from './toolbar';

export interface Picture {
  readonly element: HTMLElement;
  show(shown: Shown): void;
  /** The caret came from the text: the text is not moved by it. */
  meet(wish: CaretWish): void;
  /** Null where nothing is drawn, or the form cannot hold it. */
  handout(form: DrawingForm): Handout | null;
  kept(): Omit<KeptState, 'subject'>;
}

export interface PictureListener {
  reveal(span: Span): void;
  /** To a screen reader. */
  say(words: string): void;
  save(): void;
  /** Something that is kept over a reload. */
  changed(): void;
}

export function makePicture(before: KeptState | null, listener: PictureListener): Picture {
  let surface: Surface | null = null;
  let drawn: PreviewData | null = null;
  let mark = '';
  let isTableShown = before?.isTableShown ?? false;

  const toolbar = makeToolbar({
    follow: (step) => surface?.follow(step),
    setRadix: (radix) => surface?.go({ ...surface.view(), radix }),
    switchTable: () => {
      isTableShown = !isTableShown;
      renderView();
    },
    save: listener.save,
  });
  const box = makePictureBox();
  const tables = makeTables();
  const account = makeAccountView({ reveal: listener.reveal, goTo });
  const parts = [toolbar.element, box.stage, tables, account.element];
  const element = make('div', { id: 'picture' }, parts);
  element.hidden = true;
  watchTheme(() => surface?.show(surface.view()));

  function show({ data, mark: newest }: Shown): void {
    mark = newest;
    element.hidden = data.traces.length === 0;
    if (data === drawn || element.hidden) setMark();
    if (data !== drawn && !element.hidden) draw(data);
    drawn = data;
    renderView();
  }

  function draw(data: PreviewData): void {
    const scene = sceneOf(data);
    if (surface === null)
      surface = createSurface(box, { scene, view: firstView(scene) }, { moved, pressedName, painted });
    else surface.replace(scene, restoreView(keptView(surface.scene(), surface.view()), scene, surface.view()));
    box.describe(data.top ?? '');
    account.show(scene, surface.view());
  }

  function firstView(scene: Scene): View {
    const size = { width: box.stage.clientWidth, height: box.stage.clientHeight };
    const kept = before?.view ?? null;
    return kept === null ? openingView(scene.data, size) : restoreView(kept, scene, size);
  }

  function renderView(): void {
    box.stage.hidden = isTableShown;
    tables.hidden = !isTableShown;
    if (surface === null) return;
    const view = surface.view();
    toolbar.show({ radix: view.radix, isTableShown });
    if (isTableShown) fillTables(tables, surface.scene(), view);
    listener.changed();
  }

  function painted(): void {
    setMark();
    listener.changed();
  }

  /** Says what is on the screen, once it is. */
  function setMark(): void {
    document.body.dataset.mark = mark;
  }

  function moved(view: View, from: View): void {
    renderView();
    if (surface === null || (view.focus === from.focus && view.radix === from.radix)) return;
    const scene = surface.scene();
    account.show(scene, view);
    if (view.focus === null || view.focus === from.focus) return;
    listener.say(accountLines(scene, view)[0]?.words ?? '');
    listener.reveal(placeOf(scene, view.focus));
  }

  function pressedName(trace: number): void {
    if (surface !== null) listener.reveal(surface.scene().data.traces[trace].span);
  }

  function goTo(link: number): void {
    if (surface === null) return;
    const focus = focusOnLink(surface.scene(), surface.view(), link);
    if (focus === null) listener.reveal(surface.scene().data.links[link].span);
    else surface.visit(withFocus(surface.scene(), surface.view(), focus));
  }

  function meet({ accounts, signal }: CaretWish): void {
    if (surface === null) return;
    const names = [signal, ...accounts.map((each) => each.signal)];
    const view = withTraceNamed(surface.scene(), surface.view(), names);
    if (view === null) account.tell(signal, accounts);
    else {
      surface.show(view);
      account.show(surface.scene(), view);
      renderView();
    }
  }

  return {
    element,
    show,
    meet,
    handout: (form) => (surface === null || element.hidden ? null : handoutOf(surface.scene(), surface.view(), form)),
    kept: () => ({
      view: surface === null ? (before?.view ?? null) : keptView(surface.scene(), surface.view()),
      isTableShown,
    }),
  };
}

/** The line that makes the change in focus; of a start, the declaration. */
function placeOf({ data: { links, traces } }: Scene, { change, trace }: NonNullable<View['focus']>): Span {
  const { changes, span } = traces[trace];
  return links[changes.link[change]]?.span ?? span;
}

// The account as elements: what the trace in focus is, with the places that say so, then the edge and its causes. Causes
// are gone to from their lines; every place is shown in the text.

import type { Scene } from '../../server/src/drawing/scene';
import { traceWords } from '../../server/src/drawing/fact-tables';
import type { View } from '../../server/src/drawing/view';
import type { PanelAccount } from '../../server/src/editor/panel-messages';
import type { PreviewTrace } from '../../server/src/report/preview-data';
import type { Span } from '../../server/src/text/place';
import { type AccountLine, accountLines } from './accounts';
import { make, makeLink } from './page-elements';
import { makeRoving } from './roving';

export interface AccountView {
  readonly element: HTMLElement;
  /** The edge in focus. */
  show(scene: Scene, view: View): void;
  /** Of a signal that no trace shows. */
  tell(signal: string, accounts: readonly PanelAccount[]): void;
}

export interface AccountActions {
  reveal(span: Span): void;
  /** To the change that a link tells of. */
  goTo(link: number): void;
}

const invitation =
  'Click an edge, or press an arrow key on the picture: what happened there, and because of what, is told here.';

export function makeAccountView({ goTo, reveal }: AccountActions): AccountView {
  const about = make('p', { className: 'about' });
  const list = make('ul', { id: 'account', className: 'account' });
  const empty = make('p', { className: 'empty', text: invitation });
  const element = make(
    'section',
    { id: 'account-box', className: 'account-box', attributes: { 'aria-label': 'Account' } },
    [about, list, empty],
  );
  const roving = makeRoving(element, {
    keys: ['ArrowUp', 'ArrowDown'],
    items: () => [...element.querySelectorAll<HTMLElement>('button')],
  });

  function fill(head: readonly (Node | string)[], items: readonly Node[]): void {
    const hadFocus = element.contains(document.activeElement);
    about.replaceChildren(...head);
    list.replaceChildren(...items);
    empty.hidden = items.length > 0;
    roving.renew();
    // Whoever went on from here stays here.
    if (hadFocus) (list.querySelector('button') ?? about.querySelector('button'))?.focus();
  }

  function item(scene: Scene, { kind, link, words }: AccountLine): HTMLElement {
    if (link === null) return make('li', { text: words, className: kind });
    const press = () => (kind === 'edge' ? reveal(scene.data.links[link].span) : goTo(link));
    return make('li', { className: kind }, [makeLink(words, press)]);
  }

  return {
    element,
    show(scene, view) {
      const trace = view.focus === null ? null : scene.data.traces[view.focus.trace];
      fill(
        trace === null ? [] : headOf(trace, reveal),
        accountLines(scene, view).map((line) => item(scene, line)),
      );
    },
    tell(signal, accounts) {
      const items = accounts.flatMap(({ lines, steps }) => lines.map((words, index) => toldItem(words, steps[index])));
      fill([make('bdi', { text: `${signal}: it has no trace of its own in the picture` })], items);
    },
  };

  function toldItem(words: string, step: PanelAccount['steps'][number] | undefined): HTMLElement {
    if (step === undefined) return make('li', { className: 'cause', text: words });
    return make('li', { className: 'cause' }, [makeLink(words, () => reveal(step.span))]);
  }
}

/** `q[3]: register, clocked by q[2] falling, stage 4` and where the text says so. */
function headOf(trace: PreviewTrace, reveal: (span: Span) => void): readonly (Node | string)[] {
  const { clock, name, span } = trace;
  const words = make('span', {}, [make('bdi', { text: name }), `: ${traceWords(trace)}`]);
  const sampled = clock === null ? [] : [makeLink(`sampled in line ${clock.span.line}`, () => reveal(clock.span))];
  return [words, ' ', makeLink(`declared in line ${span.line}`, () => reveal(span)), ' ', ...sampled];
}

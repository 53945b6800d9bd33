// Notices as elements. What is said already stays untouched, so that a screen reader says it once.

import { makeButton } from './controls';
import { actionWords, type Notice, type NoticeAction } from './notices';
import { make } from './page-elements';

export interface NoticesView {
  readonly element: HTMLElement;
  show(notices: readonly Notice[]): void;
}

export function makeNoticesView(act: (action: NoticeAction) => void): NoticesView {
  const element = make('div', { id: 'notices', attributes: { role: 'status' } });
  let said = '';
  return {
    element,
    show(notices) {
      const saying = JSON.stringify(notices);
      if (saying === said) return;
      said = saying;
      element.replaceChildren(...notices.map((notice) => noticeElement(notice, act)));
    },
  };
}

function noticeElement({ action, words }: Notice, act: (action: NoticeAction) => void): HTMLElement {
  const text = make('span', { text: words });
  const button = action === null ? [] : [makeButton({ text: actionWords(action) }, () => act(action))];
  return make('p', { className: 'notice' }, [text, ...button]);
}

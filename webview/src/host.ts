// The other side of the page: the editor's half of the panel, and what the page leaves with it over a reload. What comes
// back from a reload is not believed blindly.

import type { ClientMessage, PageMessage, PanelSubject } from '../../server/src/editor/panel-messages';
import type { KeptView } from './kept-view';

export interface Host {
  say(message: PageMessage): void;
  keep(state: KeptState): void;
  kept(): KeptState | null;
  listen(hear: (message: ClientMessage) => void): void;
}

export interface KeptState {
  readonly subject: PanelSubject;
  readonly view: KeptView | null;
  readonly isTableShown: boolean;
}

interface EditorApi {
  postMessage(message: PageMessage): void;
  setState(state: KeptState): void;
  getState(): unknown;
}

declare function acquireVsCodeApi(): EditorApi;

/** To be called once: the editor hands its side out a single time. */
export function reachHost(): Host {
  const editor = acquireVsCodeApi();
  return {
    say: (message) => editor.postMessage(message),
    keep: (state) => editor.setState(state),
    kept: () => readState(editor.getState()),
    listen: (hear) => window.addEventListener('message', ({ data }) => hear(data as ClientMessage)),
  };
}

/** Null where it is not of this form: an earlier version may have left another. */
export function readState(value: unknown): KeptState | null {
  const { isTableShown, subject, view } = (value ?? {}) as Partial<KeptState>;
  if (typeof subject?.document !== 'string' || typeof subject.choices !== 'object') return null;
  return { subject, view: isView(view) ? view : null, isTableShown: isTableShown === true };
}

function isView(view: KeptView | null | undefined): view is KeptView {
  if (view === null || view === undefined) return false;
  const { folds, radix, scroll, window: seen } = view;
  const isWindow = seen === null || (typeof seen?.from === 'number' && seen.from < seen.to);
  return isWindow && typeof scroll === 'number' && Array.isArray(folds) && typeof radix === 'string';
}

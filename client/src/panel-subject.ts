// What a panel is about, made and checked: what a page kept over a reload or a command was handed is not believed blindly.

import type { Uri } from 'vscode';
import type { PanelSubject, StudyChoices } from '../../server/src/editor/panel-messages';

const noChoices: StudyChoices = {
  top: null,
  delays: null,
  start: null,
  clocks: {},
  resets: {},
  inputs: {},
  whatIf: [],
};

export function subjectOf(document: Uri): PanelSubject {
  return { document: document.toString(), choices: noChoices };
}

/** What is missing says nothing. Null where no document is named. */
export function readSubject(value: unknown): PanelSubject | null {
  const { choices, document } = (value ?? {}) as { readonly document?: unknown; readonly choices?: unknown };
  if (typeof document !== 'string') return null;
  return { document, choices: { ...noChoices, ...(choices as Partial<StudyChoices> | undefined) } };
}

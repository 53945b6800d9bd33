// The controls of the panel, and the only place that knows the toolkit they come from. Hands out plain elements that tell
// by the events of the platform (`click`, `change`), and functions for what is done to them, so that another toolkit, or
// none, costs this file alone.

import {
  type Dropdown,
  provideVSCodeDesignSystem,
  type TextField,
  vsCodeButton,
  vsCodeDropdown,
  vsCodeOption,
  vsCodeTextField,
} from '@vscode/webview-ui-toolkit';
import { visibleText } from '../../server/src/drawing/visible-text';

provideVSCodeDesignSystem().register(vsCodeButton(), vsCodeDropdown(), vsCodeOption(), vsCodeTextField());

/** `label` is what a screen reader says where that is more than the text. */
export interface ControlText {
  readonly text: string;
  readonly label?: string;
}

export function makeButton({ label, text }: ControlText, onPress: () => void): HTMLElement {
  const button = document.createElement('vscode-button');
  button.setAttribute('appearance', 'secondary');
  button.textContent = text;
  if (label !== undefined) setLabel(button, label);
  button.addEventListener('click', onPress);
  return button;
}

export interface Choice {
  readonly value: string;
  readonly text: string;
}

export function makeDropdown(label: string, onChoose: (value: string) => void): HTMLElement {
  const dropdown = document.createElement('vscode-dropdown') as Dropdown;
  setLabel(dropdown, label);
  dropdown.addEventListener('change', () => onChoose(dropdown.value));
  return dropdown;
}

/** What may be chosen and what is; nothing is touched where neither has changed. */
export function setChoices(element: HTMLElement, choices: readonly Choice[], value: string): void {
  const dropdown = element as Dropdown;
  const offered = JSON.stringify(choices);
  if (dropdown.dataset.offered !== offered) {
    dropdown.dataset.offered = offered;
    dropdown.replaceChildren(...choices.map(makeOption));
  }
  if (dropdown.value !== value) dropdown.value = value;
}

function makeOption({ text, value }: Choice): HTMLElement {
  const option = document.createElement('vscode-option');
  option.setAttribute('value', value);
  option.textContent = visibleText(text);
  return option;
}

export function makeTextField(label: string, onWritten: (text: string) => void): HTMLElement {
  const field = document.createElement('vscode-text-field') as TextField;
  setName(field, label);
  field.setAttribute('spellcheck', 'false');
  field.addEventListener('change', () => onWritten(field.value));
  return field;
}

/** The toolkit names a field by its content, whatever label it has; the style sheet hides the content. */
export function setName(field: HTMLElement, name: string): void {
  const text = visibleText(name);
  if (field.textContent !== text) field.textContent = text;
}

export function setText(element: HTMLElement, text: string): void {
  const field = element as TextField;
  if (field.value !== text) field.value = text;
  field.style.width = `${Math.max(6, Math.min(text.length, 36)) + 4}ch`;
}

/** Marks what is written as wrong; `expected` says what would be right, null: it is right. */
export function setExpected(field: HTMLElement, expected: string | null): void {
  field.classList.toggle('wrong', expected !== null);
  if (expected === null) field.removeAttribute('aria-invalid');
  else field.setAttribute('aria-invalid', 'true');
}

function setLabel(control: HTMLElement, label: string): void {
  control.setAttribute('aria-label', visibleText(label));
}

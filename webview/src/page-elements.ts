// The few things that are done to the elements of both pages. Text goes in as text, never as markup, and as it can be read.

import { visibleText } from '../../server/src/drawing/visible-text';

export function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no ${id}`);
  return found;
}

export interface Made {
  readonly text?: string;
  readonly className?: string;
  readonly id?: string;
  /** `role`, `aria-…`, `tabindex` and the like, by name. */
  readonly attributes?: Readonly<Record<string, string>>;
}

export function make<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  { attributes = {}, className, id, text }: Made = {},
  children: readonly (Node | string)[] = [],
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  if (text !== undefined) made.textContent = visibleText(text);
  if (className !== undefined) made.className = className;
  if (id !== undefined) made.id = id;
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...children.map((child) => (typeof child === 'string' ? visibleText(child) : child)));
  return made;
}

/** A button that reads like the text around it. */
export function makeLink(text: string, onPress: () => void): HTMLButtonElement {
  const link = make('button', { text, className: 'go', attributes: { type: 'button' } });
  link.addEventListener('click', onPress);
  return link;
}

// The few things that are done to the page's elements. Text goes in as text, never as markup.

export function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no ${id}`);
  return found;
}

export function make<Tag extends 'li' | 'button'>(
  tag: Tag,
  { className, text }: { readonly text: string; readonly className: string },
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  made.textContent = text;
  made.className = className;
  return made;
}

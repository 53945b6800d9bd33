// One stop of the Tab key for many things in a row: arrow keys go from one to the next, Home and End to the ends, and the
// one that had the focus last keeps the stop (WAI-ARIA Authoring Practices 1.2, "Developing a Keyboard Interface").

export interface RovingOptions {
  /** The keys that go back and forth. */
  readonly keys: readonly [back: string, forth: string];
  /** The things, in order, as they are now. */
  items(): readonly HTMLElement[];
}

export interface Roving {
  /** After the things have changed: exactly one of them keeps the stop. */
  renew(): void;
}

export function makeRoving(container: HTMLElement, { items, keys: [back, forth] }: RovingOptions): Roving {
  let current: HTMLElement | null = null;

  function renew(): void {
    const all = items();
    if (current === null || !all.includes(current)) current = all[0] ?? null;
    for (const item of all) item.tabIndex = item === current ? 0 : -1;
  }

  container.addEventListener('focusin', (event) => {
    const entered = items().find((item) => item.contains(event.target as Node));
    if (entered === undefined || entered === current) return;
    current = entered;
    renew();
  });
  container.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || current === null) return;
    const next = nextOf(items(), current, event.key, [back, forth]);
    if (next === undefined) return;
    event.preventDefault();
    next.focus();
  });
  renew();
  return { renew };
}

function nextOf(
  items: readonly HTMLElement[],
  current: HTMLElement,
  key: string,
  [back, forth]: readonly [string, string],
): HTMLElement | undefined {
  const at = items.indexOf(current);
  if (key === back) return items[at - 1];
  if (key === forth) return items[at + 1];
  if (key === 'Home') return items[0];
  return key === 'End' ? items.at(-1) : undefined;
}

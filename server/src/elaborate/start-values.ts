// Start values of variables: their declarations and initial blocks, run by IEEE 1364-2005 to the letter up to the first
// time control of each. What comes after it is stimulus, not a start value; which signals it drives is noted.

import { slice } from '../netlist/four-state-parts';
import { contextIn } from './constants';
import { runInitial } from './initial-run';
import { lowerFor } from './lower';
import type { Initializer, ModuleDraft, Work } from './module-draft';
import { addProcess } from './processes';
import { createStore, startsAtZero, type StartValues, type Store } from './start-store';

export function* findStartValues(draft: ModuleDraft): Generator<void, StartValues> {
  const store = createStore();
  for (const initializer of draft.initializers) startWith(draft, store, initializer);
  for (const { array } of draft.arrays) {
    if (array.memory === null) continue;
    const { signal, contents } = array.memory;
    const { blank } = contents;
    store.write(signal, 0, startsAtZero(array.shape.type) ? contents.filledWith(blank, '0') : blank, array.at);
  }
  const atEnd: (() => void)[] = [];
  for (const work of draft.work) {
    if (!isInitial(work)) continue;
    const process = addProcess(draft, 'initial', work.item.at);
    process.kind = 'stimulus';
    const run = { draft, process, store, atEnd, steps: { count: 0 }, clockwork: null };
    yield* runInitial(run, work.scope, work.item.body);
  }
  for (const update of atEnd) update();
  return store;
}

/** Gives what is declared the value that stands in its declaration. */
export function startWith(
  draft: ModuleDraft,
  store: Pick<Store, 'reader' | 'write'>,
  { form, parts, scope, value }: Initializer,
): void {
  const at = { context: contextIn(draft, scope), reader: store.reader };
  const bits = lowerFor(at, value, form.width, () => form);
  for (const { low, signal } of parts) store.write(signal, 0, slice(bits, low, signal.shape.width), value.at);
}

type InitialWork = Extract<Work, { kind: 'item' }> & { readonly item: { readonly kind: 'process' } };

function isInitial(work: Work): work is InitialWork {
  return work.kind === 'item' && work.item.kind === 'process' && work.item.flavor === 'initial';
}

// Start values of variables: their declarations and initial blocks, run by IEEE 1364-2005 to the letter up to the first
// time control of each. What comes after it is stimulus, not a start value; which signals it drives is noted.

import { contextIn } from './constants';
import { runInitial } from './initial-run';
import { lowerTo } from './lower';
import type { ModuleDraft, Work } from './module-draft';
import { addProcess } from './processes';
import { createStore, startsAtZero, type StartValues } from './start-store';

export function* findStartValues(draft: ModuleDraft): Generator<void, StartValues> {
  const store = createStore();
  for (const { signal, scope, value } of draft.initializers) {
    const at = { context: contextIn(draft, scope), reader: store.reader };
    store.write(signal, 0, lowerTo(at, value, signal.shape.width), value.at);
  }
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

type InitialWork = Extract<Work, { kind: 'item' }> & { readonly item: { readonly kind: 'process' } };

function isInitial(work: Work): work is InitialWork {
  return work.kind === 'item' && work.item.kind === 'process' && work.item.flavor === 'initial';
}

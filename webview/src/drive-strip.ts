// The strip above the picture: which module of which file is shown, and what drives it, each field to be written into.
// A field that is being written in is left alone; wrong text keeps the old value and is answered by what is expected.

import { visibleText } from '../../server/src/drawing/visible-text';
import type { StudyChoices } from '../../server/src/editor/panel-messages';
import { makeDropdown, setChoices } from './controls';
import type { Shown } from './conversation';
import { type DriveField, driveFields, startReason } from './drive-fields';
import { type FieldRow, makeFieldRow, makeOriginMark, type OriginMark } from './field-row';
import { make } from './page-elements';

export interface DriveStrip {
  readonly element: HTMLElement;
  /** `choices`: the newest, though what is shown may still be of others. */
  show(shown: Shown, choices: StudyChoices): void;
}

export function makeDriveStrip(choose: (choices: StudyChoices) => void): DriveStrip {
  let latest: StudyChoices | null = null;
  const change = (alter: (choices: StudyChoices) => StudyChoices) => {
    if (latest !== null) choose(alter(latest));
  };
  const heads = makeHeads(change);
  const driven = make('div', { className: 'driven' });
  const rows = new Map<string, FieldRow>();

  function showFields(fields: readonly DriveField[]): void {
    const keys = fields.map(({ key }) => key);
    if (keys.join('\n') !== [...rows.keys()].join('\n')) {
      rows.clear();
      for (const field of fields)
        rows.set(
          field.key,
          makeFieldRow(field, () => latest, choose),
        );
      driven.replaceChildren(...bySignal(fields, rows));
    }
    for (const field of fields) rows.get(field.key)?.show(field);
  }

  return {
    element: make('header', { className: 'drive', attributes: { 'aria-label': 'Drive' } }, [heads.element, driven]),
    show(shown, choices) {
      latest = choices;
      heads.show(shown, choices);
      showFields(driveFields(shown.data, choices));
    },
  };
}

/** Fields of one signal stand together, after its name. */
function bySignal(fields: readonly DriveField[], rows: ReadonlyMap<string, FieldRow>): readonly HTMLElement[] {
  const groups = new Map<string, HTMLElement>();
  for (const { key, signal } of fields) {
    const row = rows.get(key);
    const group = groups.get(signal) ?? make('div', { className: 'signal' }, [make('bdi', { text: signal })]);
    groups.set(signal, group);
    if (row !== undefined) group.append(row.element);
  }
  // What is wrong stands below all fields of its signal, so that no field moves.
  for (const { key, signal } of fields) groups.get(signal)?.append(rows.get(key)?.complaint ?? '');
  return [...groups.values()];
}

type Change = (alter: (choices: StudyChoices) => StudyChoices) => void;

/** Module, start value, delay set: what is chosen from a list. */
function makeHeads(change: Change) {
  const top = makeHead('module', (value) => change((choices) => ({ ...choices, top: value })));
  const start = makeHead('registers start at', (value) =>
    change((choices) => ({ ...choices, start: value as StudyChoices['start'] })),
  );
  const delays = makeHead('delays', (value) => change((choices) => ({ ...choices, delays: value })));
  top.origin.onWithdraw(() => change((choices) => ({ ...choices, top: null })));
  start.origin.onWithdraw(() => change((choices) => ({ ...choices, start: null })));
  delays.origin.onWithdraw(() => change((choices) => ({ ...choices, delays: null })));
  const file = make('span', { className: 'file' });
  top.dropdown.after(file);
  const conditions = make('p', { className: 'conditions' });
  const row = make('div', { className: 'heads' }, [top.element, start.element, delays.element]);

  function show({ data, offers, subject }: Shown, choices: StudyChoices): void {
    file.textContent = visibleText(`in ${fileOf(subject.document)}`);
    setOffers(top, withCurrent(offers.tops, data.top), data.top);
    top.origin.show(choices.top === null ? 'stated' : 'chosen', '');
    const reason = startReason(data);
    setOffers(start, data.start === null ? [] : ['0', '1', 'x'], data.start);
    start.origin.show(choices.start !== null ? 'chosen' : reason === null ? 'stated' : 'assumed', reason ?? '');
    setOffers(delays, withCurrent(offers.delaySets, data.delaySet.name), data.delaySet.name);
    const { conditions: words, name, sheet, source } = data.delaySet;
    const isAssumed = source !== 'given' && data.top !== null;
    const delaysReason = isAssumed ? `no delay set is stated: ${name} is taken` : '';
    delays.origin.show(choices.delays !== null ? 'chosen' : isAssumed ? 'assumed' : 'stated', delaysReason);
    const stated = [sheet, words].filter((each) => each !== null).join(', ');
    conditions.textContent = stated === '' ? '' : visibleText(`${name}: ${stated}`);
  }

  return { element: make('div', {}, [row, conditions]), show };
}

interface Head {
  readonly element: HTMLElement;
  readonly dropdown: HTMLElement;
  readonly origin: OriginMark;
}

function makeHead(label: string, onChoose: (value: string) => void): Head {
  const dropdown = makeDropdown(label, onChoose);
  const origin = makeOriginMark(label);
  const text = make('span', { className: 'label', text: label });
  return { element: make('div', { className: 'field' }, [text, dropdown, origin.element]), dropdown, origin };
}

function setOffers({ dropdown, element }: Head, values: readonly string[], current: string | null): void {
  element.hidden = values.length === 0;
  const choices = values.map((value) => ({ value, text: value }));
  const none = { value: '', text: 'none' };
  setChoices(dropdown, current === null ? [none, ...choices] : choices, current ?? none.value);
}

/** What is shown is among what may be chosen, whatever is offered. */
function withCurrent(offered: readonly string[], current: string | null): readonly string[] {
  return current === null || offered.includes(current) ? offered : [current, ...offered];
}

/** The last part of a URI's path, as a person writes it. */
function fileOf(document: string): string {
  const name = document.split(/[?#]/)[0].split('/').at(-1) ?? document;
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

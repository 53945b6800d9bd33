// The what-if strip: who, what and how is chosen from lists or written, asked by a button; what was asked stands below, each
// with the way back, and the answer in sentences. Nothing of the text and of what is shown as it is changes.

import type { StudyChoices } from '../../server/src/editor/panel-messages';
import type { WhatIf } from '../../server/src/report/asked';
import { makeButton, makeDropdown, makeTextField, setChoices, setExpected, setText } from './controls';
import type { Shown } from './conversation';
import { make } from './page-elements';
import { questionsOf, type Subject, subjectsOf, valuesOf, withAsked, withoutAsked } from './what-if-choices';

export interface WhatIfStrip {
  readonly element: HTMLElement;
  /** `choices`: the newest, though what is shown may still be of others. */
  show(shown: Shown, choices: StudyChoices): void;
}

export function makeWhatIfStrip(choose: (choices: StudyChoices) => void): WhatIfStrip {
  let shown: Shown | null = null;
  let latest: StudyChoices | null = null;
  /** What is picked but not asked yet. */
  let picked = { name: '', what: 'delays', value: '' };

  const subject = makeDropdown('what if: what it is about', (name) => pick({ name, what: '', value: '' }));
  const question = makeDropdown('what if: what would be otherwise', (what) => pick({ ...picked, what, value: '' }));
  const listed = makeDropdown('what if: how it would be', (value) => pick({ ...picked, value }));
  const written = makeTextField('what if: value', (value) => pick({ ...picked, value }));
  const complaint = make('p', { className: 'complaint', attributes: { role: 'alert' } });
  const ask = makeButton({ text: 'Ask', label: 'what if: ask' }, onAsk);
  const asked = make('ul', { className: 'asked' });
  const answer = make('ul', { className: 'answer', attributes: { 'aria-live': 'polite' } });
  const row = make('div', { className: 'heads' }, [subject, question, listed, written, ask]);
  const summary = make('summary', { text: 'What if' });
  const element = make('details', { className: 'what-if' }, [summary, row, complaint, asked, answer]);

  function pick(next: typeof picked): void {
    picked = next;
    complaint.textContent = '';
    setExpected(written, null);
    render();
  }

  /** Of what is picked, what there is; else the first. */
  function current(subjects: readonly Subject[]) {
    const who = subjects.find(({ name }) => name === picked.name) ?? subjects[0];
    const questions = questionsOf(who);
    return { who, questions, what: (questions.find(({ what }) => what === picked.what) ?? questions[0]).what };
  }

  function render(): void {
    if (shown === null) return;
    const subjects = subjectsOf(shown.data);
    const { questions, what, who } = current(subjects);
    const values = valuesOf(who, what, shown);
    setChoices(
      subject,
      subjects.map(({ name }) => ({ value: name, text: name === '' ? 'all registers' : name })),
      who.name,
    );
    setChoices(
      question,
      questions.map((each) => ({ value: each.what, text: each.text })),
      what,
    );
    listed.hidden = values === null;
    written.hidden = values !== null;
    if (values !== null)
      setChoices(
        listed,
        values.map((value) => ({ value, text: value })),
        values.includes(picked.value) ? picked.value : (values[0] ?? ''),
      );
    else setText(written, picked.value);
  }

  function onAsk(): void {
    if (shown === null || latest === null) return;
    const { what, who } = current(subjectsOf(shown.data));
    const values = valuesOf(who, what, shown);
    const value = values === null || values.includes(picked.value) ? picked.value : (values[0] ?? '');
    const next = withAsked(latest, who, what, value);
    if (next.kind === 'refused') {
      complaint.textContent = `expected: ${next.expected}`;
      if (values === null) setExpected(written, next.expected);
    } else choose(next.value);
  }

  function drop(item: WhatIf): void {
    if (latest !== null) choose(withoutAsked(latest, item));
  }

  function tell({ whatIf }: Shown['data']): void {
    element.hidden = false;
    const items = whatIf?.asked ?? [];
    asked.replaceChildren(
      ...items.map((item) => {
        const { words } = item;
        const back = makeButton({ text: 'drop', label: `what if: drop ${words}` }, () => drop(item));
        return make('li', {}, [make('span', { text: `with ${words}` }), ' ', back]);
      }),
    );
    const lines = whatIf === null ? [] : whatIf.refused === null ? whatIf.answer : [`not told: ${whatIf.refused}`];
    answer.replaceChildren(...lines.map((text) => make('li', { text })));
    if (items.length > 0) element.open = true;
  }

  return {
    element,
    show(next, choices) {
      const isNew = shown?.data !== next.data;
      shown = next;
      latest = choices;
      if (isNew) tell(next.data);
      render();
    },
  };
}

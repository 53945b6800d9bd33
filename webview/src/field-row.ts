// One field of the drive: its label, what is written in it, where that comes from, and what is expected where it is wrong.

import type { StudyChoices } from '../../server/src/editor/panel-messages';
import { makeButton, makeTextField, setExpected, setName, setText } from './controls';
import type { DriveField, Origin } from './drive-fields';
import { make } from './page-elements';
import { visibleText } from '../../server/src/drawing/visible-text';

export interface FieldRow {
  readonly element: HTMLElement;
  /** What is expected; empty where nothing is wrong. */
  readonly complaint: HTMLElement;
  show(field: DriveField): void;
}

export function makeFieldRow(
  first: DriveField,
  choices: () => StudyChoices | null,
  choose: (choices: StudyChoices) => void,
): FieldRow {
  let field = first;
  let isBeingWritten = false;
  const name = `${first.signal} ${first.label}`;
  const control = makeTextField(name, onWritten);
  const origin = makeOriginMark(name);
  const complaint = make('p', { className: 'complaint', attributes: { role: 'alert' } });
  const label = make('span', { className: 'label' });
  origin.onWithdraw(() => {
    const current = choices();
    if (current !== null) choose(field.withdraw(current));
  });
  control.addEventListener('input', () => {
    isBeingWritten = true;
  });
  control.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    setText(control, field.value);
    accept();
  });

  function onWritten(text: string): void {
    const current = choices();
    if (current === null) return;
    const written = text.trim() === field.value ? null : field.write(text, current);
    if (written?.kind === 'refused') {
      setExpected(control, written.expected);
      complaint.textContent = visibleText(`expected: ${written.expected}; ${field.value} still holds`);
      return;
    }
    accept();
    if (written !== null) choose(written.value);
  }

  function accept(): void {
    isBeingWritten = false;
    setExpected(control, null);
    complaint.textContent = '';
  }

  return {
    element: make('div', { className: 'field' }, [label, control, origin.element]),
    complaint,
    show(next) {
      field = next;
      label.textContent = next.label;
      setName(control, `${next.signal} ${next.label}`);
      origin.show(next.origin, next.reason);
      if (!isBeingWritten) setText(control, next.value);
    },
  };
}

export interface OriginMark {
  readonly element: HTMLElement;
  show(origin: Origin, reason: string): void;
  onWithdraw(withdraw: () => void): void;
}

/** `assumed` as a word with its reason; for what is chosen here, the way back to what is stated. */
export function makeOriginMark(name: string): OriginMark {
  let withdraw = () => {};
  const word = make('span', { className: 'origin', text: 'assumed' });
  const back = makeButton({ text: 'drop choice', label: `${name}: drop the choice made here` }, () => withdraw());
  const element = make('span', {}, [word, back]);
  return {
    element,
    show(origin, reason) {
      word.hidden = origin !== 'assumed';
      word.title = visibleText(reason);
      back.hidden = origin !== 'chosen';
      element.parentElement?.setAttribute('data-origin', origin);
    },
    onWithdraw(next) {
      withdraw = next;
    },
  };
}

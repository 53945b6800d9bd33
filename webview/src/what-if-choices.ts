// What may be asked in the panel, and what becomes of the choices when something is: without an element of a page.

import type { Offers, StudyChoices } from '../../server/src/editor/panel-messages';
import type { WhatIf } from '../../server/src/report/asked';
import type { PreviewData } from '../../server/src/report/preview-data';
import { constantExpected, parseConstant, type Written } from './drive-values';

/** A register, an input, or everything (name empty). */
export interface Subject {
  readonly name: string;
  readonly kind: 'all' | 'register' | 'input';
  readonly width: number;
}

/** All first, then registers, then inputs that are held, as they are drawn. */
export function subjectsOf({ drive, traces }: PreviewData): readonly Subject[] {
  const registers = traces.filter(
    ({ clock, kind, parent }) => kind === 'register' && clock !== null && parent === null,
  );
  return [
    { name: '', kind: 'all', width: 0 },
    ...registers.map(({ name, width }): Subject => ({ name, kind: 'register', width })),
    ...drive.inputs.map(({ signal, value }): Subject => ({ name: signal, kind: 'input', width: value.length })),
  ];
}

export interface Question {
  readonly what: WhatIf['what'];
  readonly text: string;
}

export function questionsOf({ kind }: Subject): readonly Question[] {
  return questions[kind];
}

const questions: Readonly<Record<Subject['kind'], readonly Question[]>> = {
  all: [{ what: 'delays', text: 'had the delays of' }],
  register: [
    { what: 'edge', text: 'acted on the edge' },
    { what: 'start', text: 'started at' },
    { what: 'clock', text: 'were clocked by' },
    { what: 'delays', text: 'had the delays of' },
  ],
  input: [{ what: 'held', text: 'were held at' }],
};

/** Values to choose from; null where one is to be written. */
export function valuesOf(
  { name }: Subject,
  what: WhatIf['what'],
  { data, offers }: { readonly data: PreviewData; readonly offers: Offers },
): readonly string[] | null {
  switch (what) {
    case 'edge': {
      // The other edge first: that of the clock as it is would change nothing.
      const now = data.traces.find((trace) => trace.name === name)?.clock?.edge;
      return now === 'rising' ? ['falling', 'rising'] : ['rising', 'falling'];
    }
    case 'clock':
      return data.traces.filter((trace) => trace.width === 1 && trace.name !== name).map((trace) => trace.name);
    case 'delays':
      return offers.delaySets;
    default:
      return null;
  }
}

/** The choices with this asked too, in place of the same asked otherwise. */
export function withAsked(
  choices: StudyChoices,
  { name, width }: Subject,
  what: WhatIf['what'],
  value: string,
): Written<StudyChoices> {
  const isWritten = what === 'start' || what === 'held';
  const read: Written<string> = isWritten ? parseConstant(value, width) : { kind: 'value', value };
  if (read.kind === 'refused') return read;
  if (read.value === '') return { kind: 'refused', expected: isWritten ? constantExpected(width) : 'a choice' };
  const others = choices.whatIf.filter((each) => each.about !== name || each.what !== what);
  return { kind: 'value', value: { ...choices, whatIf: [...others, { about: name, what, value: read.value }] } };
}

export function withoutAsked(choices: StudyChoices, { about, what }: Pick<WhatIf, 'about' | 'what'>): StudyChoices {
  return { ...choices, whatIf: choices.whatIf.filter((each) => each.about !== about || each.what !== what) };
}

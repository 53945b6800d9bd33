// What may be asked in the panel, and the choices that come of it.
import { describe, expect, it } from 'vitest';
import type { StudyChoices } from '../../server/src/editor/panel-messages';
import { questionsOf, subjectsOf, valuesOf, withAsked, withoutAsked } from '../../webview/src/what-if-choices';
import { previewOf, span, traceOf } from '../drawing/previews';

const none: StudyChoices = { top: null, delays: null, start: null, clocks: {}, resets: {}, inputs: {}, whatIf: [] };
const clock = { signal: 'clk', edge: 'falling', span } as const;
const input = { signal: 'en', value: '1', moves: null, source: 'inferred' } as const;
const data = previewOf({
  traces: [
    traceOf('clk', { kind: 'clock' }),
    traceOf('q[1:0]', { width: 2, clock }),
    traceOf('q[1]', { parent: 1, clock }),
    traceOf('r', { clock }),
    traceOf('y', { kind: 'output' }),
  ],
  drive: { clocks: [], resets: [], inputs: [input] },
});
const shown = { data, offers: { tops: [], delaySets: ['unit', 'ideal'] } };
const [all, q, r, en] = subjectsOf(data);

describe('what may be asked', () => {
  it('of all, of each register as it is clocked, and of each input', () => {
    expect(subjectsOf(data).map(({ kind, name }) => `${kind} ${name}`)).toEqual([
      'all ',
      'register q[1:0]',
      'register r',
      'input en',
    ]);
  });

  it('is what each of them has', () => {
    const kinds = (subject: typeof all) => questionsOf(subject).map(({ what }) => what);
    expect([all, q, en].map(kinds)).toEqual([['delays'], ['edge', 'start', 'clock', 'delays'], ['held']]);
  });

  it('offers the other edge first, single bits as clocks, the delay sets of the study', () => {
    expect(valuesOf(q, 'edge', shown)).toEqual(['rising', 'falling']);
    expect(valuesOf(r, 'clock', shown)).toEqual(['clk', 'q[1]', 'y']);
    expect(valuesOf(all, 'delays', shown)).toEqual(['unit', 'ideal']);
    expect(valuesOf(q, 'start', shown)).toBeNull();
  });
});

describe('the choices', () => {
  it('take one answer of each question', () => {
    const once = withAsked(none, q, 'edge', 'rising');
    const twice = once.kind === 'value' ? withAsked(once.value, q, 'edge', 'falling') : once;
    expect(twice).toEqual({
      kind: 'value',
      value: { ...none, whatIf: [{ about: 'q[1:0]', what: 'edge', value: 'falling' }] },
    });
  });

  it('take no constant that does not fit, and say what does', () => {
    expect(withAsked(none, q, 'start', '3')).toMatchObject({ kind: 'value' });
    expect(withAsked(none, q, 'start', '4')).toMatchObject({ kind: 'refused' });
    expect(withAsked(none, en, 'held', '')).toMatchObject({ kind: 'refused' });
  });

  it('drop what is not asked any more', () => {
    const asked = withAsked(none, en, 'held', '0');
    const choices = asked.kind === 'value' ? asked.value : none;
    expect(withoutAsked(choices, { about: 'en', what: 'held' })).toEqual(none);
    expect(withoutAsked(choices, { about: 'q', what: 'held' })).toEqual(choices);
  });
});

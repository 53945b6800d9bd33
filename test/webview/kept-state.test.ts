// What the page left for a reload: read back, and not believed where it is of another form.
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../../server/src/drawing/scene';
import { openingView } from '../../server/src/drawing/view';
import { handoutOf } from '../../webview/src/handout';
import { readState } from '../../webview/src/host';
import { keptView } from '../../webview/src/kept-view';
import { rippleOfTwo } from '../drawing/previews';

const scene = sceneOf(rippleOfTwo());
const opening = openingView(scene.data, { width: 900, height: 400 });
const subject = {
  document: 'file:///project/a.v',
  choices: { top: 'm', delays: null, start: null, clocks: {}, resets: {}, inputs: {}, whatIf: [] },
};

describe('what is kept over a reload', () => {
  it('comes back as it was', () => {
    const state = { subject, view: keptView(scene, opening), isTableShown: true };
    expect(readState(JSON.parse(JSON.stringify(state)))).toEqual(state);
  });

  it('without a subject is nothing', () => {
    for (const value of [undefined, null, 'text', {}, { subject: {} }, { subject: { document: 5 } }]) {
      expect(readState(value)).toBeNull();
    }
  });

  it('with a view that is none opens as a new page', () => {
    const good = keptView(scene, { ...opening, from: 50, to: 80 });
    const bad = [5, {}, { ...good, folds: 5 }, { ...good, window: { from: 80, to: 50 } }, { ...good, scroll: '1' }];
    for (const view of bad) expect(readState({ subject, view })).toEqual({ subject, view: null, isTableShown: false });
  });
});

describe('what is saved', () => {
  it('has a name that a file can have, whatever the design is called', () => {
    const named = (top: string) => handoutOf(sceneOf({ ...scene.data, top }), opening, 'svg')?.suggestedName ?? '';
    expect(named('belt_counter')).toBe('belt_counter.svg');
    expect(named('\\../a"><b ')).toBe('-a-b-.svg');
    expect(named('x'.repeat(500)).length).toBeLessThan(70);
  });

  it('shows every row, and no focus that is not on it', () => {
    const shaded = (focus: { trace: number; change: number }, more = {}) =>
      handoutOf(scene, { ...opening, height: 60, focus, ...more }, 'svg')?.drawing.content;
    for (const { name } of scene.data.traces) expect(shaded({ trace: 3, change: 0 })).toContain(`${name}</text>`);
    const outside = shaded({ trace: 3, change: 1 }, { from: 0, to: 100 });
    expect(outside).toBe(handoutOf(scene, { ...opening, from: 0, to: 100 }, 'svg')?.drawing.content);
  });
});

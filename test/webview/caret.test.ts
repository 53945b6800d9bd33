// The caret in the text asks for a trace: it comes into view, time stays where it is.
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../../server/src/drawing/scene';
import { openingView } from '../../server/src/drawing/view';
import { withTraceNamed } from '../../webview/src/focus';
import { previewOf, rippleOfTwo, toggles, traceOf } from '../drawing/previews';

const scene = sceneOf(rippleOfTwo());
const opening = openingView(scene.data, { width: 900, height: 400 });

describe('a trace that is asked for by name', () => {
  it('gets the focus, on its last change in the window', () => {
    expect(withTraceNamed(scene, opening, ['q[0]'])?.focus).toEqual({ trace: 3, change: 1 });
    expect(withTraceNamed(scene, { ...opening, from: 50, to: 150 }, ['q[0]'])?.focus).toEqual({ trace: 3, change: 0 });
  });

  it('leaves the window of time alone', () => {
    expect(withTraceNamed(scene, { ...opening, from: 50, to: 80 }, ['q[1]'])).toMatchObject({ from: 50, to: 80 });
  });

  it('is its vector where that is folded', () => {
    const folded = { ...opening, unfolded: new Set<number>() };
    expect(withTraceNamed(scene, folded, ['q[1]'])?.focus?.trace).toBe(1);
  });

  it('is the first of several names that a trace shows; without any nothing is said', () => {
    expect(withTraceNamed(scene, opening, ['q', 'q[1]', 'q[0]'])?.focus?.trace).toBe(2);
    expect(withTraceNamed(scene, opening, ['nobody', '__proto__'])).toBeNull();
  });

  it('that has the focus already keeps its edge', () => {
    const view = { ...opening, focus: { trace: 3, change: 0 } };
    expect(withTraceNamed(scene, view, ['q[0]'])?.focus).toEqual(view.focus);
  });

  it('is scrolled to', () => {
    const traces = Array.from({ length: 80 }, (_, index) => traceOf(`t${index}`, { changes: toggles([5]) }));
    const tall = sceneOf(previewOf({ traces }));
    const view = openingView(tall.data, { width: 900, height: 300 });
    expect(withTraceNamed(tall, view, ['t70'])?.scroll).toBeGreaterThan(1000);
  });
});

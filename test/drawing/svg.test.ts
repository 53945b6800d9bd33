// The picture as SVG text: well formed, the same bytes every time, and whatever a design is called stays text.
import { describe, expect, it } from 'vitest';
import { drawPicture } from '../../server/src/drawing/picture';
import { sceneOf } from '../../server/src/drawing/scene';
import { escapeMarkup, svgOf } from '../../server/src/drawing/svg';
import { handoutView } from '../../server/src/drawing/view';
import type { PreviewData } from '../../server/src/report/preview-data';
import { previewOf, rippleOfTwo, traceOf } from './previews';

const hostile = ['<script>a()</script>', '"\'&', '</text>', ']]>', '<!--', '\u202Edrawkcab', 'nul\u0000', 'lone\uD800'];

function svg(data: PreviewData): string {
  return svgOf(drawPicture(sceneOf(data), handoutView(data)), data.top ?? '');
}

describe('the picture as SVG', () => {
  it('is as it was', async () => {
    await expect(svg(rippleOfTwo())).toMatchFileSnapshot('ripple-of-two.svg');
  });

  it('carries hostile names as text alone', () => {
    const text = svg(previewOf({ top: hostile[0], traces: hostile.map((name) => traceOf(name, { note: name })) }));
    const tags = new Set([...text.matchAll(/<\/?([a-z!?-]+)/gi)].map(([, name]) => name));
    expect([...tags].sort()).toEqual(['path', 'pattern', 'rect', 'svg', 'text', 'title']);
    expect(text).not.toMatch(/&(?!amp;|lt;|gt;|quot;|#39;)/);
    // XML 1.0, production 2 (Char), from the recommendation: no control characters, no lone surrogates.
    expect(text).not.toMatch(/(?![\t\n\r])\p{Cc}|\p{Surrogate}/u);
  });

  it('has no number that is none', () => {
    expect(svg(rippleOfTwo())).not.toMatch(/NaN|Infinity|undefined/);
  });
});

describe('escaping', () => {
  it('leaves nothing that ends a quote or begins an element', () => {
    for (const text of hostile) expect(escapeMarkup(text)).not.toMatch(/[<>"']/);
    expect(escapeMarkup('q[3] ≥ 2')).toBe('q[3] ≥ 2');
  });
});

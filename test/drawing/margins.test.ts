// The room beside the waves: the same where there is plenty, what is needed where there is little, and never the waves'.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { marginsOf, wordRoom } from '../../server/src/drawing/margins';
import { drawPicture } from '../../server/src/drawing/picture';
import { sceneOf } from '../../server/src/drawing/scene';
import { textWidth } from '../../server/src/drawing/shape';
import { openingView } from '../../server/src/drawing/view';
import { previewOf, traceOf } from './previews';

const staircase = previewOf({
  traces: ['clk', 'q[0]', 'q[1]', 'q[2]', 'q[3]'].map((name, indent) =>
    traceOf(name, { indent, note: indent === 0 ? '50 MHz' : `stage ${indent}, +${indent} ns` }),
  ),
});

function textsAt(width: number) {
  const picture = drawPicture(sceneOf(staircase), openingView(staircase, { width, height: 600 }));
  return picture.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape] : []));
}

describe('margins', () => {
  it('of a wide picture are always the same', () => {
    for (const words of [wordRoom(staircase), { left: 900, right: 900 }, { left: 0, right: 0 }]) {
      expect(marginsOf({ width: 1200, words })).toEqual({ left: 190, right: 150 });
    }
  });

  it('of a narrow one leave names, stages and notes whole, and the waves more than half', () => {
    const texts = textsAt(540);
    for (const { name, note } of staircase.traces) {
      expect(texts.map(({ text }) => text)).toContain(name);
      expect(texts.map(({ text }) => text)).toContain(note);
    }
    const { left, right } = marginsOf({ width: 540, words: wordRoom(staircase) });
    expect(left + right).toBeLessThan(270);
  });

  it('of a very narrow one let the notes go', () => {
    const texts = textsAt(380).map(({ text }) => text);
    expect(texts).toContain('q[3]');
    expect(texts).not.toContain('50 MHz');
  });

  it('let no word reach over an edge, however narrow', () => {
    fc.assert(
      fc.property(fc.integer({ min: 150, max: 1500 }), (width) => {
        for (const { anchor, face, text, x } of textsAt(width)) {
          if (anchor === 'start') expect(x + textWidth(text, face)).toBeLessThanOrEqual(width);
        }
      }),
    );
  });
});

// The elements that the picture lives in: one that takes the focus and scrolls, one that is as high as all rows, one that
// is painted on.

import { visibleText } from '../../server/src/drawing/visible-text';
import { keysId } from './notes-view';
import { make } from './page-elements';
import type { SurfaceElements } from './surface';

export interface PictureBox extends SurfaceElements {
  /** By the module that is drawn. */
  describe(top: string): void;
}

export function makePictureBox(): PictureBox {
  const canvas = make('canvas', { id: 'waves', attributes: { 'aria-hidden': 'true' } });
  const extent = make('div', { id: 'extent' }, [canvas]);
  const attributes = { tabindex: '0', role: 'application', 'aria-describedby': keysId };
  const stage = make('div', { id: 'stage', attributes }, [extent]);
  return {
    stage,
    extent,
    canvas,
    describe: (top) =>
      stage.setAttribute('aria-label', visibleText(`Waveforms of ${top}; the same as tables: button As tables`)),
  };
}

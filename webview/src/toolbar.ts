// The row of buttons over the picture. One stop of the Tab key; left and right go from one to the next.

import type { Radix } from '../../server/src/drawing/view';
import { makeButton, makeDropdown, setChoices } from './controls';
import { make } from './page-elements';
import { makeRoving } from './roving';
import type { Step } from './steps';

export interface Toolbar {
  readonly element: HTMLElement;
  show(state: ToolbarState): void;
}

export interface ToolbarState {
  readonly radix: Radix;
  readonly isTableShown: boolean;
}

export interface ToolbarActions {
  follow(step: Step): void;
  setRadix(radix: Radix): void;
  switchTable(): void;
  save(): void;
}

const radixes: readonly Radix[] = ['decimal', 'hexadecimal', 'binary'];

export function makeToolbar({ follow, save, setRadix, switchTable }: ToolbarActions): Toolbar {
  const radix = makeDropdown('values in', (value) => setRadix(value as Radix));
  const table = makeButton({ text: 'As tables' }, switchTable);
  const items = [
    makeButton({ text: 'Whole run' }, () => follow('fit')),
    makeButton({ text: 'Zoom in' }, () => follow('zoom-in')),
    makeButton({ text: 'Zoom out' }, () => follow('zoom-out')),
    makeButton({ text: 'Earlier' }, () => follow('pan-left')),
    makeButton({ text: 'Later' }, () => follow('pan-right')),
    radix,
    table,
    makeButton({ text: 'Save as SVG' }, save),
  ];
  const element = make('div', { className: 'bar', attributes: { role: 'toolbar', 'aria-label': 'Picture' } }, items);
  const roving = makeRoving(element, { keys: ['ArrowLeft', 'ArrowRight'], items: () => items });
  return {
    element,
    show(state) {
      setChoices(
        radix,
        radixes.map((value) => ({ value, text: `in ${value}` })),
        state.radix,
      );
      table.textContent = state.isTableShown ? 'As picture' : 'As tables';
      roving.renew();
    },
  };
}

// The colors of the theme in force, by role, from the style sheet's custom properties.

import type { Role } from '../../server/src/drawing/shape';
import type { Palette } from './paint';

const roles: readonly Role[] = [
  'background',
  'line',
  'text',
  'muted',
  'grid',
  'moving',
  'unknown',
  'glitch',
  'quiet-glitch',
  'thread',
  'focus',
  'shade',
];

export function readPalette(element: Element): Palette {
  const style = getComputedStyle(element);
  const entries = roles.map((role) => [role, style.getPropertyValue(`--foretick-${role}`).trim() || 'currentColor']);
  return Object.fromEntries(entries) as Palette;
}

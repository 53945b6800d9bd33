// What a panel is about before a person chose anything in it.

import type { StudyChoices } from './panel-messages';

export const noChoices: StudyChoices = {
  top: null,
  delays: null,
  start: null,
  clocks: {},
  resets: {},
  inputs: {},
  whatIf: [],
};

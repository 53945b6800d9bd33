// A sentence for every reason that the clock network, the prediction and the findings give. A test collects the reasons
// that those rooms write and proves that none is without a sentence.

import type { Why } from '../clocks/network';
import type { Sentences } from './why-sentence';
import { clockSentences } from './why-clocks';
import { driveSentences } from './why-drive';
import { hazardSentences } from './why-hazards';
import { predictionSentences } from './why-prediction';
import { countWords } from './words';

/** The sentence for a reason. One that is missing is our mistake; its key still reads as words. */
export function whyWords({ reason, args }: Why): string {
  return whySentences[reason]?.(args) ?? reason.replaceAll('-', ' ');
}

export const whySentences: Sentences = {
  ...clockSentences,
  ...driveSentences,
  ...predictionSentences,
  ...hazardSentences,
  'stated-unknown-name': ({ list, name }) =>
    `${list} in foretick.json names ${name}, which is no signal of this design`,
  'stated-cell-unused': ({ name }) => `cells in foretick.json names ${name}, which is given or not used`,
  'stated-acceptance-unmet': ({ list, name }) => `${list} of ${name} in foretick.json meets no finding`,
  'comment-acceptance-unmet': ({ id }) => `this comment accepts ${id}, and none stands on the line that it is about`,
  'stated-override-unknown': ({ name }) =>
    `overrides in foretick.json names ${name}, which is no instance or signal of this design`,
  'stated-override-empty': ({ name }) => `overrides of ${name} in foretick.json meets nothing that takes time`,
  'stated-override-part': ({ name, slice }) =>
    `overrides of ${name} in foretick.json means a part of ${slice}, whose bits take one delay together: not followed`,
  'stated-override-text': ({ name, slice }) =>
    `overrides of ${name} in foretick.json does not change ${slice}, whose delay stands in the text`,
  'stated-rate-of-several': ({ name }) =>
    `rates in foretick.json wishes a rate of ${name}, which has several bits: name one of them`,
  'found-several': ({ name, others, taken }) =>
    `${name} stands in ${Number(others) + 1} files of the workspace: that in ${taken}, the nearest, is taken`,
  'found-folder': ({ name, others, taken }) =>
    `${name} is in no folder that is stated: ${taken} is taken${Number(others) === 0 ? '' : `, the nearest of ${Number(others) + 1}`}`,
  'delays-unstated': ({ delaySet, entries }) => `delay set ${delaySet} does not state ${entries}: taken as 0`,
  'delays-specified': ({ checks, paths, registers }) =>
    `specify blocks of the text state the delays of ${countWords(Number(registers), 'register')} and ${countWords(Number(paths), 'output')}, and ${countWords(Number(checks), 'timing check')}: they hold in place of the delay set; what a cell library states for one load and supply is no measurement`,
  'period-of-longest-path': () =>
    'by the longest paths from register to register of the delay set: ports, wires and written memories are not in it',
  'period-at-least-distance': () =>
    'by the longest paths from register to register, the two edges taken as close as they can be: ports and wires are not in it',
  'period-without-clock': () => 'it has no one driven root clock',
  'period-without-transfer': () => 'no register of it samples another, and no least clock period is stated',
  'period-through-latch': () => 'a path leads through an open latch, which is not added up',
  'period-not-answerable': () => 'not answerable from text: the delays of logic and wires are not in it',
};

// A sentence for every reason that the clock network, the prediction and the findings give. A test collects the reasons
// that those rooms list and proves that none is without a sentence.

import type { Why } from '../clocks/network';
import type { ReasonArguments } from '../text/complaint';

type Sentence = (args: ReasonArguments) => string;

/** The sentence for a reason. One that is missing is our mistake; its key still reads as words. */
export function whyWords({ reason, args }: Why): string {
  const sentence = whySentences[reason];
  return sentence === undefined ? reason.replaceAll('-', ' ') : sentence(args);
}

export const whySentences: Readonly<Record<string, Sentence>> = {
  // ------------------------------------------------ of the report itself
  'period-not-answerable': () => 'not answerable from text: the delays of logic and wires are not in it',
};

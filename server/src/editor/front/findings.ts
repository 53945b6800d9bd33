// Findings of a document in two steps: what reading found at once, the rest when it is ready. Where reading has nothing to
// say and the client shows something already, the first step waits a moment, so that squiggles do not flicker while the
// whole is almost there.

import type { Findings, Question } from '../worker-messages';
import type { LinkAnswer, Pending } from './back-link';

export interface TwoSteps {
  /** Of reading or, where it was quicker, of the whole. */
  readonly first: Promise<LinkAnswer>;
  readonly whole: Promise<LinkAnswer>;
  cancel(): void;
}

/** Milliseconds that an empty first step waits for the whole. */
const patience = 300;

export function askFindings(
  ask: (question: Question) => Pending<LinkAnswer>,
  document: string,
  { showsSome }: { readonly showsSome: boolean },
): TwoSteps {
  const reading = ask({ kind: 'findings', document, depth: 'reading' });
  const whole = ask({ kind: 'findings', document, depth: 'whole' });
  const first = reading.answer.then(async (answer) => {
    if (showsSome && isEmpty(answer)) await delay(patience);
    return answer;
  });
  return {
    first: Promise.race([first, whole.answer]),
    whole: whole.answer,
    cancel() {
      reading.cancel();
      whole.cancel();
    },
  };
}

export function findingsIn(answer: LinkAnswer): Findings | null {
  return answer.kind === 'result' ? (answer.result as Findings) : null;
}

function isEmpty(answer: LinkAnswer): boolean {
  return findingsIn(answer)?.diagnostics.length === 0;
}

function delay(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}

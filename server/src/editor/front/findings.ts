// Findings of a document in three steps: what reading found at once, the rest when it is ready, and last what a search for
// glitches finds, where that takes long. Where reading has nothing to
// say and the client shows something already, the first step waits a moment, so that squiggles do not flicker while the
// whole is almost there.

import type { Findings, Question } from '../worker-messages';
import type { LinkAnswer, Pending } from './back-link';

export interface FindingsSteps {
  /** Of reading or, where it was quicker, of a later step. */
  readonly first: Promise<LinkAnswer>;
  readonly early: Promise<LinkAnswer>;
  readonly whole: Promise<LinkAnswer>;
  cancel(): void;
}

/** Milliseconds that an empty first step waits for the whole. */
const patience = 300;

export function askFindings(
  ask: (question: Question) => Pending<LinkAnswer>,
  document: string,
  { showsSome }: { readonly showsSome: boolean },
): FindingsSteps {
  const reading = ask({ kind: 'findings', document, depth: 'reading' });
  const early = ask({ kind: 'findings', document, depth: 'early' });
  const whole = ask({ kind: 'findings', document, depth: 'whole' });
  const first = reading.answer.then(async (answer) => {
    if (showsSome && isEmpty(answer)) await delay(patience);
    return answer;
  });
  return {
    first: Promise.race([first, early.answer, whole.answer]),
    early: early.answer,
    whole: whole.answer,
    cancel() {
      reading.cancel();
      early.cancel();
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

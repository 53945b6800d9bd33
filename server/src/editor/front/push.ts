// Sends diagnostics to a client that does not ask for them: step by step, of the latest text alone, and none for a document
// that was closed.

import type { PublishDiagnosticsParams } from 'vscode-languageserver';
import type { Findings, Question } from '../worker-messages';
import type { LinkAnswer, Pending } from './back-link';
import type { Documents } from './documents';
import { askFindings, findingsIn, type FindingsSteps } from './findings';

export interface Push {
  /** Something about these documents changed. */
  refresh(documents: readonly string[]): void;
  forget(document: string): void;
}

export interface PushTools {
  readonly documents: Documents;
  ask(question: Question): Pending<LinkAnswer>;
  publish(params: PublishDiagnosticsParams): void;
}

export function createPush({ ask, documents, publish }: PushTools): Push {
  const running = new Map<string, FindingsSteps>();
  const shown = new Map<string, Findings>();

  function send(uri: string, version: number, findings: Findings | null): void {
    if (findings === null || documents.get(uri)?.version !== version || shown.get(uri)?.mark === findings.mark) return;
    shown.set(uri, findings);
    publish({ uri, version, diagnostics: [...findings.diagnostics] });
  }

  async function pushInSteps(uri: string): Promise<void> {
    const version = documents.get(uri)?.version;
    if (version === undefined) return;
    running.get(uri)?.cancel();
    const steps = askFindings(ask, uri, { showsSome: (shown.get(uri)?.diagnostics.length ?? 0) > 0 });
    running.set(uri, steps);
    for (const step of [steps.first, steps.early, steps.whole]) {
      const answer = await step;
      // What came after a newer question is of no use.
      if (running.get(uri) === steps) send(uri, version, findingsIn(answer));
    }
  }

  return {
    refresh(uris) {
      for (const uri of uris) void pushInSteps(uri);
    },
    forget(uri) {
      running.get(uri)?.cancel();
      running.delete(uri);
      shown.delete(uri);
      publish({ uri, diagnostics: [] });
    },
  };
}

// One conversation with a client, from its `initialize` on: keeps the texts and settings, tells the worker of them, and has
// the client ask again where answers may differ. Holds no study.

import type {
  DidChangeTextDocumentParams,
  DocumentDiagnosticParams,
  TextDocumentItem,
  WorkspaceFoldersChangeEvent,
} from 'vscode-languageserver';
import type { PanelReply, PanelRequest } from '../panel-messages';
import type { EditorSettings } from '../settings';
import type { FrontMessage } from '../worker-messages';
import { type LinkAnswer, linkBack, type Pending, type StartBack } from './back-link';
import type { Client } from './client';
import { createClientSettings } from './client-settings';
import { createDocuments } from './documents';
import { findFiles } from './find-files';
import { foldersAfter } from './folders';
import { type PullOutcome, pullDiagnostics } from './pull';
import { createPush } from './push';
import { readAnyFile } from './read-file';

export interface Session {
  opened(document: TextDocumentItem): void;
  changed(params: DidChangeTextDocumentParams): void;
  saved(): void;
  closed(document: string): void;
  /** Files of the workspace came, went or changed; null: perhaps any. */
  filesChanged(files: readonly string[] | null): void;
  foldersChanged(change: WorkspaceFoldersChangeEvent): void;
  settingsChanged(settings: unknown): void;
  /** `params` as the client sent them. */
  feature(method: string, document: string, params: object): Pending<LinkAnswer>;
  symbols(query: string): Pending<LinkAnswer>;
  pull(params: DocumentDiagnosticParams): Pending<PullOutcome>;
  panel(request: PanelRequest): Pending<PanelReply>;
}

/** `atFirst`: URIs of the workspace's folders. */
export function openSession(client: Client, startBack: StartBack, atFirst: readonly string[]): Session {
  const { facts } = client;
  const documents = createDocuments();
  const known = new Map<string, EditorSettings>();
  let folders = atFirst;
  const ask = facts.hasConfiguration ? client.settingsOf : null;
  const settings = createClientSettings({ ask, initial: facts.settings });
  const link = linkBack(startBack, {
    readFile: (uri) => readAnyFile(uri, facts.readsFiles ? client.readFile : null),
    findFiles: (request) => findFiles(request, facts.findsFiles ? client.findFiles : null),
    notice: client.showWarning,
    changed: heardChanged,
    memory: () => [
      { kind: 'folders', folders },
      ...documents.all().flatMap(({ text, uri }) => memoryOf(uri, text, known.get(uri))),
    ],
    restarted() {
      heardChanged(
        documents.all().map(({ uri }) => uri),
        null,
      );
    },
    gaveUp: (why) => client.showError(`Foretick does not answer until the next change: ${why}`),
  });
  link.tell({ kind: 'folders', folders });
  const push = facts.pullsDiagnostics ? null : createPush({ documents, ask: link.ask, publish: client.publish });

  /** A client asks by itself about a document that was edited. */
  function heardChanged(changed: readonly string[], edited: string | null): void {
    push?.refresh(changed);
    if (changed.some((document) => document !== edited)) {
      if (push === null) client.refreshDiagnostics();
      client.refreshHints();
    }
    client.studyChanged(changed.filter((document) => documents.get(document) !== null));
  }

  /** An editor may have put aside a lens that it had to wait for: now none waits. */
  function refreshAll(): void {
    client.refreshDiagnostics();
    client.refreshHints();
  }

  async function tellSettings(document: string): Promise<void> {
    const found = await settings.of(document);
    if (documents.get(document) === null) return;
    known.set(document, found);
    link.tell({ kind: 'settings', document, settings: found });
  }

  return {
    feature: (method, document, params) =>
      link.ask({
        kind: 'feature',
        method,
        document,
        params,
        hover: facts.hover,
        fillsIn: facts.fillsIn,
        isUntouched: documents.get(document)?.isUntouched ?? false,
      }),
    opened({ text, uri, version }) {
      documents.put({ uri, version, text, isUntouched: true });
      link.tell({ kind: 'text', document: uri, text });
      void tellSettings(uri);
    },
    changed({ contentChanges, textDocument: { uri, version } }) {
      const changed = documents.change(uri, version, contentChanges);
      if (changed !== null) link.tell({ kind: 'text', document: uri, text: changed.text });
    },
    saved() {
      // Who watches files tells of this one too, and of no other.
      if (!facts.watchesFiles) link.tell({ kind: 'files-changed', files: null });
    },
    closed(document) {
      documents.close(document);
      known.delete(document);
      link.tell({ kind: 'closed', document });
      push?.forget(document);
    },
    filesChanged: (files) => link.tell({ kind: 'files-changed', files }),
    foldersChanged(change) {
      folders = foldersAfter(folders, change);
      link.tell({ kind: 'folders', folders });
    },
    symbols: (query) => link.ask({ kind: 'symbols', query }),
    settingsChanged(changed) {
      settings.hear(changed);
      for (const { uri } of documents.all()) void tellSettings(uri);
    },
    pull: (params) =>
      pullDiagnostics({ ask: link.ask, refresh: facts.refreshes.diagnostics ? refreshAll : null }, params),
    panel(request) {
      const { answer, cancel } = link.ask({ kind: 'panel', request });
      return { answer: answer.then(panelReply), cancel };
    },
  };
}

function memoryOf(document: string, text: string, settings: EditorSettings | undefined): readonly FrontMessage[] {
  const opened: FrontMessage = { kind: 'text', document, text };
  return settings === undefined ? [opened] : [opened, { kind: 'settings', document, settings }];
}

function panelReply(answer: LinkAnswer): PanelReply {
  if (answer.kind === 'result') return answer.result as PanelReply;
  const { reason, words } = answer;
  return { kind: 'failed', reason: reason === 'unknown' ? 'unavailable' : reason, words };
}

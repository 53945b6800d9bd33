// What the server says to the client by itself: everything that goes out and is no answer.

import {
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type PublishDiagnosticsParams,
} from 'vscode-languageserver/node';
import type { FindFilesMethod, FindFilesReply, FindFilesRequest } from '../file-messages';
import type { FileReply, FileRequest, ReadFileMethod, StudyChanged, StudyChangedMethod } from '../panel-messages';
import type { ClientFacts } from './client-facts';

export interface Client {
  readonly facts: ClientFacts;
  publish(params: PublishDiagnosticsParams): void;
  /** Has it ask again for diagnostics, as far as it can; soon, and once however often this is called meanwhile. */
  refreshDiagnostics(): void;
  /** The same for code lenses, inlay hints and semantic tokens. */
  refreshHints(): void;
  studyChanged(documents: readonly string[]): void;
  readFile(request: FileRequest): Promise<FileReply>;
  findFiles(request: FindFilesRequest): Promise<FindFilesReply>;
  /** Its settings below `foretick` for a document. */
  settingsOf(document: string): Promise<unknown>;
  /** Asks to be told of changed settings and files. */
  register(): void;
  log(words: string): void;
  showError(words: string): void;
  showWarning(words: string): void;
}

const readFileMethod: ReadFileMethod = 'foretick/readFile';
const findFilesMethod: FindFilesMethod = 'foretick/findFiles';
const studyChangedMethod: StudyChangedMethod = 'foretick/studyChanged';

/** Files that studies may be made of. */
const watched = ['**/foretick.json', '**/*.{v,vh,sv,svh,inc,hex,mem,dat,vcd}'];

export function createClient(connection: Connection, facts: ClientFacts): Client {
  const { languages } = connection;
  const refreshes = facts.refreshes;
  return {
    facts,
    publish: (params) => void connection.sendDiagnostics(params),
    refreshDiagnostics: soon(() => refreshes.diagnostics && attempt(languages.diagnostics.refresh())),
    refreshHints: soon(() => {
      if (refreshes.codeLens) attempt(connection.sendRequest('workspace/codeLens/refresh'));
      if (refreshes.inlayHint) attempt(languages.inlayHint.refresh());
      if (refreshes.semanticTokens) attempt(connection.sendRequest('workspace/semanticTokens/refresh'));
    }),
    studyChanged(documents) {
      const params: StudyChanged = { documents };
      void connection.sendNotification(studyChangedMethod, params);
    },
    readFile: (request) => connection.sendRequest(readFileMethod, request),
    findFiles: (request) => connection.sendRequest(findFilesMethod, request),
    settingsOf: (document) => connection.workspace.getConfiguration({ scopeUri: document, section: 'foretick' }),
    register() {
      if (facts.registersConfiguration)
        attempt(connection.client.register(DidChangeConfigurationNotification.type, { section: 'foretick' }));
      // Of a folder that is removed only its own path is told. 4: deletions alone (protocol 3.17, WatchKind).
      const watchers = [...watched.map((globPattern) => ({ globPattern })), { globPattern: '**', kind: 4 as const }];
      if (facts.watchesFiles) attempt(connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }));
    },
    log: (words) => connection.console.error(words),
    showError: (words) => void connection.sendNotification('window/showMessage', { type: 1, message: words }),
    showWarning: (words) => void connection.sendNotification('window/showMessage', { type: 2, message: words }),
  };
}

/** A client that refuses, or is gone, is no reason to stop. */
function attempt(work: Promise<unknown>): void {
  work.catch(() => {});
}

/** Milliseconds in which one call stands for several. */
const moment = 30;

function soon(action: () => void): () => void {
  let isWaiting = false;
  return () => {
    if (isWaiting) return;
    isWaiting = true;
    setTimeout(() => {
      isWaiting = false;
      action();
    }, moment);
  };
}

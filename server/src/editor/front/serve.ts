// The protocol thread: hears the client and answers it, by way of a session. It reads no Verilog itself, so that the client
// is heard however long a study takes. Unknown requests are answered, and the process ended, by the protocol's library.

import {
  type CancellationToken,
  createConnection,
  type DocumentDiagnosticParams,
  ProposedFeatures,
  type RenameParams,
  type TextDocumentPositionParams,
  type WorkspaceEdit,
  type WorkspaceSymbolParams,
} from 'vscode-languageserver/node';
import { toolVersion } from '../../report/version';
import type { PanelMethod, PanelRequest } from '../panel-messages';
import type { LinkAnswer, Pending, StartBack } from './back-link';
import { relayedMethods, serverCapabilities } from './capabilities';
import { createClient } from './client';
import { clientFacts } from './client-facts';
import { foldersAtFirst } from './folders';
import { cancelled, diagnosticErrorOf, errorOf, notServing } from './failures';
import { openSession, type Session } from './session';
import { firstReadOnly } from './writable';

/** Speaks over what the process's arguments name: `--stdio`, `--node-ipc`, `--socket=…` or `--pipe=…`. */
export function serve(startBack: StartBack): void {
  const connection = createConnection(ProposedFeatures.all);
  let session: Session | null = null;
  let wasShutDown = false;

  /** A request of the client, answered while the session lasts and until the client takes it back. */
  function answer<Params>(method: string, act: (session: Session, params: Params) => Pending<unknown>): void {
    connection.onRequest(method, (params: Params, token: CancellationToken) =>
      session === null || wasShutDown ? notServing({ wasShutDown }) : orCancelled(act(session, params), token),
    );
  }

  connection.onInitialize((params) => {
    const facts = clientFacts(params);
    const client = createClient(connection, facts);
    session = openSession(client, startBack, foldersAtFirst(params));
    connection.onInitialized(() => {
      client.register();
      if (facts.tellsFolders)
        connection.workspace.onDidChangeWorkspaceFolders((change) => session?.foldersChanged(change));
    });
    return {
      capabilities: serverCapabilities(facts),
      serverInfo: { name: 'foretick', version: toolVersion },
    };
  });
  connection.onShutdown(() => {
    wasShutDown = true;
  });

  connection.onDidOpenTextDocument(({ textDocument }) => session?.opened(textDocument));
  connection.onDidChangeTextDocument((params) => session?.changed(params));
  connection.onDidSaveTextDocument(() => session?.saved());
  connection.onDidCloseTextDocument(({ textDocument }) => session?.closed(textDocument.uri));
  connection.onDidChangeWatchedFiles(({ changes }) => session?.filesChanged(changes.map(({ uri }) => uri)));
  connection.onDidChangeConfiguration(({ settings }) => session?.settingsChanged(settings));

  // Whole folders may have been moved or removed, of whose files no watcher tells.
  connection.workspace.onDidRenameFiles(() => session?.filesChanged(null));
  connection.workspace.onDidDeleteFiles(() => session?.filesChanged(null));

  for (const method of relayedMethods) answer(method, method === renameMethod ? relayRename : relayOf(method));
  answer('textDocument/diagnostic', (running, params: DocumentDiagnosticParams) =>
    mapped(running.pull(params), (outcome) =>
      outcome.kind === 'report' ? outcome.report : diagnosticErrorOf(outcome),
    ),
  );
  answer('workspace/symbol', (running, { query }: WorkspaceSymbolParams) =>
    mapped(running.symbols(query), resultOrError),
  );
  answer(panelMethod, (running, request: PanelRequest) => running.panel(request));
  connection.listen();
}

const panelMethod: PanelMethod = 'foretick/panel';

const renameMethod = 'textDocument/rename';

function relayOf(method: string) {
  return (session: Session, params: TextDocumentPositionParams): Pending<unknown> => {
    const { uri } = params.textDocument;
    return mapped(session.feature(method, uri, params), resultOrError);
  };
}

/** What cannot be written is refused as a whole: half a rename is worse than none. */
function relayRename(session: Session, params: RenameParams): Pending<unknown> {
  const { answer, cancel } = session.feature(renameMethod, params.textDocument.uri, params);
  return { cancel, answer: answer.then(orReadOnly) };
}

async function orReadOnly(answer: LinkAnswer): Promise<unknown> {
  if (answer.kind === 'failed') return resultOrError(answer);
  const edit = answer.result as WorkspaceEdit | null;
  const file = edit === null ? null : await firstReadOnly(edit);
  if (file === null) return edit;
  return errorOf({ kind: 'failed', reason: 'refused', words: `${decodeURIComponent(file)} cannot be written` });
}

/** A document that is not open has nothing to show. */
function resultOrError(answer: LinkAnswer): unknown {
  if (answer.kind === 'result') return answer.result;
  return answer.reason === 'unknown' ? null : errorOf(answer);
}

function mapped<From>({ answer, cancel }: Pending<From>, convert: (from: From) => unknown): Pending<unknown> {
  return { answer: answer.then(convert), cancel };
}

/** A token that was cancelled before anybody listened tells nobody. */
function orCancelled({ answer, cancel }: Pending<unknown>, token: CancellationToken): Promise<unknown> {
  const taken = new Promise((resolve) => {
    const take = () => {
      cancel();
      resolve(cancelled());
    };
    if (token.isCancellationRequested) take();
    else token.onCancellationRequested(take);
  });
  return Promise.race([answer, taken]);
}

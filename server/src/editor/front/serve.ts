// The protocol thread: hears the client and answers it, by way of a session. It reads no Verilog itself, so that the client
// is heard however long a study takes. Unknown requests are answered, and the process ended, by the protocol's library.

import {
  type CancellationToken,
  createConnection,
  type DocumentDiagnosticParams,
  ProposedFeatures,
  type TextDocumentPositionParams,
} from 'vscode-languageserver/node';
import { toolVersion } from '../../report/version';
import type { PanelMethod, PanelRequest } from '../panel-messages';
import type { LinkAnswer, StartBack } from './back-link';
import { relayedMethods, serverCapabilities } from './capabilities';
import { createClient } from './client';
import { clientFacts } from './client-facts';
import { cancelled, diagnosticErrorOf, errorOf, notServing } from './failures';
import { openSession, type Session } from './session';

/** Speaks over what the process's arguments name: `--stdio`, `--node-ipc`, `--socket=…` or `--pipe=…`. */
export function serve(startBack: StartBack): void {
  const connection = createConnection(ProposedFeatures.all);
  let session: Session | null = null;
  let wasShutDown = false;

  /** A request of the client, answered while the session lasts. */
  function answer<Params>(
    method: string,
    act: (session: Session, params: Params, token: CancellationToken) => Promise<unknown>,
  ): void {
    connection.onRequest(method, (params: Params, token: CancellationToken) =>
      session === null || wasShutDown ? notServing({ wasShutDown }) : act(session, params, token),
    );
  }

  connection.onInitialize((params) => {
    const facts = clientFacts(params);
    const client = createClient(connection, facts);
    session = openSession(client, startBack);
    connection.onInitialized(() => client.register());
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

  for (const method of relayedMethods) answer(method, relayOf(method));
  answer('textDocument/diagnostic', pull);
  const panelMethod: PanelMethod = 'foretick/panel';
  answer(panelMethod, (running, request: PanelRequest) => running.panel(request));
  connection.listen();
}

function relayOf(method: string) {
  return async (session: Session, params: TextDocumentPositionParams, token: CancellationToken): Promise<unknown> => {
    const { uri } = params.textDocument;
    const pending = session.ask({ kind: 'feature', method, document: uri, params });
    return resultOrError(await orCancelled(pending.answer, token, pending.cancel));
  };
}

async function pull(session: Session, params: DocumentDiagnosticParams): Promise<unknown> {
  const outcome = await session.pull(params);
  return outcome.kind === 'report' ? outcome.report : diagnosticErrorOf(outcome);
}

/** Null where the client has taken back its question. */
function orCancelled<Result>(
  work: Promise<Result>,
  token: CancellationToken,
  cancel: () => void,
): Promise<Result | null> {
  const taken = new Promise<null>((resolve) => {
    token.onCancellationRequested(() => {
      cancel();
      resolve(null);
    });
  });
  return Promise.race([work, taken]);
}

/** A document that is not open has nothing to show. */
function resultOrError(answer: LinkAnswer | null): unknown {
  if (answer === null) return cancelled();
  if (answer.kind === 'result') return answer.result;
  return answer.reason === 'unknown' ? null : errorOf(answer);
}

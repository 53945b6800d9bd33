// The conversation of one panel: what its page says goes to the server or the editor, what they say goes to the page.
// Decides nothing about the design. Every question of the page is answered, whatever happens.

import {
  type CancellationToken,
  CancellationTokenSource,
  commands,
  ProgressLocation,
  Uri,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import type {
  ClientMessage,
  FileForm,
  PageMessage,
  PanelMethod,
  PanelReply,
  PanelRequest,
  PanelSubject,
} from '../../server/src/editor/panel-messages';
import { saveDrawing, saveText } from './save-file';
import { revealSpan } from './reveal-span';

/** One open panel. The subject changes when the person chooses something in the page. */
export interface PreviewPanel {
  readonly panel: WebviewPanel;
  subject: PanelSubject;
}

const panelMethod: PanelMethod = 'foretick/panel';
const neverCancelled = new CancellationTokenSource().token;

export function tellPage({ panel }: PreviewPanel, message: ClientMessage): void {
  // A page that is hidden is not there to listen; it says `ready` when it is shown again.
  void panel.webview.postMessage(message);
}

export async function hearPage(client: LanguageClient, shown: PreviewPanel, message: PageMessage): Promise<void> {
  switch (message.kind) {
    case 'ready':
      tellPage(shown, { kind: 'show', subject: shown.subject });
      break;
    case 'ask':
      tellPage(shown, { kind: 'answer', number: message.number, reply: await ask(client, message.request) });
      break;
    case 'reveal':
      await attempt('show the text', () => revealSpan(message.span));
      await commands.executeCommand('setContext', 'foretick.accountShown', true);
      break;
    case 'chose':
      shown.subject = message.subject;
      break;
    case 'export':
      await attempt('write the drawing', () => saveDrawing(Uri.parse(shown.subject.document), message));
      break;
  }
}

/** What the server writes of a subject's study, into a file that the person names. */
export async function exportFile(client: LanguageClient, subject: PanelSubject, form: FileForm): Promise<void> {
  const options = {
    location: ProgressLocation.Notification,
    title: 'Foretick: studying the design',
    cancellable: true,
  };
  const reply = await window.withProgress(options, (_progress, token) =>
    ask(client, { kind: 'file', subject, form }, token).then((answer) =>
      token.isCancellationRequested ? null : answer,
    ),
  );
  if (reply === null) return;
  if (reply.kind === 'file') await attempt('write the file', () => saveText(Uri.parse(subject.document), form, reply));
  else if (reply.kind === 'failed') void window.showErrorMessage(`Foretick cannot write this: ${reply.words}`);
}

async function ask(
  client: LanguageClient,
  request: PanelRequest,
  token: CancellationToken = neverCancelled,
): Promise<PanelReply> {
  try {
    await openForServer(request.subject);
    return await client.sendRequest<PanelReply>(panelMethod, request, token);
  } catch (error) {
    return { kind: 'failed', reason: 'unavailable', words: wordsOf(error) };
  }
}

/** The server answers about open documents; a panel that came back after a reload may be there before its text. */
async function openForServer({ document }: PanelSubject): Promise<void> {
  await workspace.openTextDocument(Uri.parse(document));
}

async function attempt(what: string, action: () => Promise<void>): Promise<void> {
  try {
    await action();
  } catch (error) {
    void window.showErrorMessage(`Foretick cannot ${what}: ${wordsOf(error)}`);
  }
}

function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

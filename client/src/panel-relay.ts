// The conversation of one panel: what its page says goes to the server or the editor, what they say goes to the page.
// Decides nothing about the design. Every question of the page is answered, whatever happens.

import { commands, Uri, type WebviewPanel, window, workspace } from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import type {
  ClientMessage,
  PageMessage,
  PanelMethod,
  PanelReply,
  PanelRequest,
  PanelSubject,
} from '../../server/src/editor/panel-messages';
import { exportDrawing } from './export-drawing';
import { revealSpan } from './reveal-span';

/** One open panel. The subject changes when the person chooses something in the page. */
export interface PreviewPanel {
  readonly panel: WebviewPanel;
  subject: PanelSubject;
}

const panelMethod: PanelMethod = 'foretick/panel';

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
      await attempt('write the drawing', () => exportDrawing(Uri.parse(shown.subject.document), message));
      break;
  }
}

async function ask(client: LanguageClient, request: PanelRequest): Promise<PanelReply> {
  try {
    await openForServer(request.subject);
    return await client.sendRequest<PanelReply>(panelMethod, request);
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

// The Timing preview's panels: one per document, opened beside the text, restored after a reload. They hear of changed
// studies, of a restarted server, and of the caret in the document they show.
//
// What a page keeps for a reload (its own state) must name its subject: `{ subject: PanelSubject, … }`.

import {
  type Disposable,
  type TextEditorSelectionChangeEvent,
  TextEditorSelectionChangeKind,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
} from 'vscode';
import { type LanguageClient, State } from 'vscode-languageclient/node';
import type {
  PageMessage,
  PanelSubject,
  StudyChanged,
  StudyChangedMethod,
} from '../../server/src/editor/panel-messages';
import { panelPage, panelResources } from './panel-page';
import { hearPage, type PreviewPanel, tellPage } from './panel-relay';
import { readSubject } from './panel-subject';

const viewType = 'foretick.preview';
const studyChanged: StudyChangedMethod = 'foretick/studyChanged';

export interface Panels extends Disposable {
  /** Shows a document's panel; `subject` replaces what it was about. */
  open(subject: PanelSubject): void;
  /** The panel that has the focus, else the one of a document. */
  find(document: Uri | null): PreviewPanel | null;
}

export function createPanels(client: LanguageClient, extensionUri: Uri): Panels {
  const panels = new Map<string, PreviewPanel>();
  const webviewOptions = { enableScripts: true, localResourceRoots: [panelResources(extensionUri)] };

  function adopt(panel: WebviewPanel, subject: PanelSubject): void {
    const shown: PreviewPanel = { panel, subject };
    panels.get(subject.document)?.panel.dispose();
    panels.set(subject.document, shown);
    panel.onDidDispose(() => {
      if (panels.get(subject.document) === shown) panels.delete(subject.document);
    });
    panel.webview.onDidReceiveMessage((message: PageMessage) => hearPage(client, shown, message));
    panel.webview.options = webviewOptions;
    panel.webview.html = panelPage(panel.webview, extensionUri);
  }

  function changed({ documents }: StudyChanged): void {
    for (const document of documents) {
      const shown = panels.get(document);
      if (shown !== undefined) tellPage(shown, { kind: 'changed' });
    }
  }

  const subscriptions = [
    window.registerWebviewPanelSerializer(viewType, {
      async deserializeWebviewPanel(panel, state: unknown) {
        const subject = readSubject((state as { readonly subject?: unknown } | undefined)?.subject);
        if (subject === null) panel.dispose();
        else adopt(panel, subject);
      },
    }),
    client.onNotification(studyChanged, changed),
    client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) changed({ documents: [...panels.keys()] });
    }),
    window.onDidChangeTextEditorSelection((event) => tellCaret(panels, event)),
  ];

  return {
    open(subject) {
      const shown = panels.get(subject.document);
      if (shown === undefined) {
        const column = { viewColumn: ViewColumn.Beside, preserveFocus: true };
        adopt(window.createWebviewPanel(viewType, titleOf(subject), column, webviewOptions), subject);
        return;
      }
      shown.subject = subject;
      shown.panel.reveal(undefined, true);
      tellPage(shown, { kind: 'show', subject });
    },
    find(document) {
      const active = [...panels.values()].find(({ panel }) => panel.active);
      return active ?? (document === null ? null : (panels.get(document.toString()) ?? null));
    },
    // The panels themselves stay: the editor restores them when it comes back.
    dispose() {
      for (const subscription of subscriptions) subscription.dispose();
    },
  };
}

/**
 * What a panel shows in the text is selected there, and the page that asked for it must not hear its own echo. A caret
 * that a person sets by a command, going to a line, selects nothing.
 */
function tellCaret(panels: ReadonlyMap<string, PreviewPanel>, event: TextEditorSelectionChangeEvent): void {
  const { kind, selections, textEditor } = event;
  const shown = panels.get(textEditor.document.uri.toString());
  const byHand = kind === TextEditorSelectionChangeKind.Keyboard || kind === TextEditorSelectionChangeKind.Mouse;
  const byCommand = kind === TextEditorSelectionChangeKind.Command && selections[0].isEmpty;
  if (shown === undefined || !(byHand || byCommand)) return;
  const { character, line } = selections[0].active;
  tellPage(shown, { kind: 'caret', caret: { line, character } });
}

function titleOf({ document }: PanelSubject): string {
  const name = Uri.parse(document).path.split('/').at(-1);
  return `Timing preview: ${name}`;
}

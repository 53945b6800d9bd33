// Every command of the manifest, registered. A command that cannot do what it was asked says why and what to do.

import { commands, type Disposable, type TextDocument, type Uri, ViewColumn, window } from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { openExample } from './examples';
import type { DrawingForm } from '../../server/src/editor/panel-messages';
import { exportFile, tellPage } from './panel-relay';
import { readSubject, subjectOf } from './panel-subject';
import type { Panels } from './panels';
import { formNames } from './save-file';
import { languages } from './server-client';

export interface CommandContext {
  readonly client: LanguageClient;
  readonly panels: Panels;
  readonly extensionUri: Uri;
}

export function registerCommands(context: CommandContext): readonly Disposable[] {
  return [
    commands.registerCommand('foretick.openPreview', (subject?: unknown) => openPreview(context, subject)),
    commands.registerCommand('foretick.exportDrawing', () => askForDrawing(context, 'svg')),
    commands.registerCommand('foretick.exportAs', () => exportAs(context)),
    commands.registerCommand('foretick.openExample', (name?: unknown) => showExample(context, name)),
    commands.registerCommand('foretick.restartServer', () => context.client.restart()),
  ];
}

/** A code lens hands over a subject; from the palette and the title bar the active text is meant, as last chosen. */
function openPreview({ panels }: CommandContext, handed: unknown): void {
  const given = readSubject(handed);
  const document = activeDesign();
  if (given !== null) panels.open(given);
  else if (document !== null) panels.open(panels.find(document.uri)?.subject ?? subjectOf(document.uri));
  else void window.showInformationMessage('Foretick: open a Verilog file first; its preview opens beside it');
}

/** Everything that can be taken along; what the panel chose holds for it too. */
async function exportAs(context: CommandContext): Promise<void> {
  const document = activeDesign();
  const subject = context.panels.find(document?.uri ?? null)?.subject ?? (document && subjectOf(document.uri));
  if (subject === null) {
    void window.showInformationMessage('Foretick: open a Verilog file or its Timing preview first');
    return;
  }
  const items = forms.map((form) => ({ label: formNames[form], description: `.${form}`, form }));
  const chosen = await window.showQuickPick(items, { title: 'Foretick: Export', placeHolder: 'what to write' });
  if (chosen === undefined) return;
  const { form } = chosen;
  if (form === 'svg' || form === 'png') askForDrawing(context, form);
  else await exportFile(context.client, subject, form);
}

const forms = ['svg', 'png', 'vcd', 'md', 'json', 'sarif'] as const;

function askForDrawing({ panels }: CommandContext, form: DrawingForm): void {
  const shown = panels.find(activeDesign()?.uri ?? null);
  if (shown !== null) tellPage(shown, { kind: 'export', form });
  else
    void window.showInformationMessage(
      'Foretick: open the Timing preview first; the drawing is written as it is shown',
    );
}

async function showExample({ extensionUri, panels }: CommandContext, name: unknown): Promise<void> {
  const document = await openExample(extensionUri, name);
  if (document === null) return;
  await window.showTextDocument(document, ViewColumn.One);
  panels.open(subjectOf(document.uri));
}

function activeDesign(): TextDocument | null {
  const document = window.activeTextEditor?.document;
  return document !== undefined && languages.includes(document.languageId) ? document : null;
}

// Every command of the manifest, registered. A command that cannot do what it was asked says why and what to do.

import { commands, type Disposable, type TextDocument, type Uri, ViewColumn, window } from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { openExample } from './examples';
import { tellPage } from './panel-relay';
import { readSubject, subjectOf } from './panel-subject';
import type { Panels } from './panels';
import { languages } from './server-client';

export interface CommandContext {
  readonly client: LanguageClient;
  readonly panels: Panels;
  readonly extensionUri: Uri;
}

export function registerCommands(context: CommandContext): readonly Disposable[] {
  return [
    commands.registerCommand('foretick.openPreview', (subject?: unknown) => openPreview(context, subject)),
    commands.registerCommand('foretick.exportDrawing', () => askForDrawing(context)),
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

function askForDrawing({ panels }: CommandContext): void {
  const shown = panels.find(activeDesign()?.uri ?? null);
  if (shown !== null) tellPage(shown, { kind: 'export' });
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

// What the server promises a client, and the requests that are relayed to the worker as they stand.

import type { ServerCapabilities } from 'vscode-languageserver';
import { legend } from '../features/semantic-tokens';
import type { ClientFacts } from './client-facts';

/** Answered by the worker's feature of the same method. */
export const relayedMethods: readonly string[] = [
  'textDocument/hover',
  'textDocument/documentSymbol',
  'textDocument/foldingRange',
  'textDocument/documentHighlight',
  'textDocument/definition',
  'textDocument/references',
  'textDocument/selectionRange',
  'textDocument/documentLink',
  'textDocument/semanticTokens/full',
  'textDocument/semanticTokens/range',
  'textDocument/completion',
  'textDocument/signatureHelp',
  'textDocument/prepareRename',
  'textDocument/rename',
  'textDocument/codeAction',
  'textDocument/codeLens',
  'textDocument/inlayHint',
];

export function serverCapabilities({ pullsDiagnostics }: ClientFacts): ServerCapabilities {
  const diagnosticProvider = { identifier: 'foretick', interFileDependencies: true, workspaceDiagnostics: false };
  return {
    positionEncoding: 'utf-16',
    // 2: edits, not whole texts (protocol 3.17, TextDocumentSyncKind).
    textDocumentSync: { openClose: true, change: 2, save: { includeText: false } },
    hoverProvider: true,
    documentSymbolProvider: true,
    foldingRangeProvider: true,
    documentHighlightProvider: true,
    definitionProvider: true,
    referencesProvider: true,
    selectionRangeProvider: true,
    documentLinkProvider: {},
    semanticTokensProvider: { legend, full: true, range: true },
    completionProvider: { triggerCharacters: ['.', '`', ':'] },
    signatureHelpProvider: { triggerCharacters: ['(', ',', '.'] },
    renameProvider: { prepareProvider: true },
    codeActionProvider: { codeActionKinds: ['quickfix'] },
    codeLensProvider: {},
    inlayHintProvider: true,
    workspaceSymbolProvider: true,
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { didRename: anyFolder, didDelete: anyFolder },
    },
    ...(pullsDiagnostics ? { diagnosticProvider } : {}),
  };
}

/** Files are watched one by one; of a folder only this tells. */
const anyFolder = { filters: [{ pattern: { glob: '**', matches: 'folder' as const } }] };

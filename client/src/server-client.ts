// The language client: which documents it serves and how the server is started (a process of its own, over IPC). Nothing
// here knows Verilog. The client library restarts a server that ended, and stops trying when it keeps ending.

import { Uri, workspace } from 'vscode';
import { type DocumentSelector, LanguageClient, TransportKind } from 'vscode-languageclient/node';
import type { FindFilesMethod } from '../../server/src/editor/file-messages';
import type { ReadFileMethod, ServerOptions } from '../../server/src/editor/panel-messages';
import { findWorkspaceFiles, readWorkspaceFile } from './workspace-files';

export const languages: readonly string[] = ['verilog', 'systemverilog'];

const readFile: ReadFileMethod = 'foretick/readFile';
const findFiles: FindFilesMethod = 'foretick/findFiles';
const initializationOptions: ServerOptions = { readsFiles: true, findsFiles: true, showsPictures: true };

export function createServerClient(extensionUri: Uri): LanguageClient {
  const module = Uri.joinPath(extensionUri, 'dist', 'server.js').fsPath;
  const server = { module, transport: TransportKind.ipc };
  const client = new LanguageClient('foretick', 'Foretick', server, {
    documentSelector: documentsServed(),
    initializationOptions,
  });
  client.onRequest(readFile, readWorkspaceFile);
  client.onRequest(findFiles, findWorkspaceFiles);
  return client;
}

/**
 * Files, new documents, and whatever the workspace's folders are made of (a virtual file system has a scheme of its
 * own). Not every scheme: the old side of a comparison is no design.
 */
function documentsServed(): DocumentSelector {
  const ofFolders = (workspace.workspaceFolders ?? []).map(({ uri }) => uri.scheme);
  const schemes = new Set(['file', 'untitled', ...ofFolders]);
  return [...schemes].flatMap((scheme) => languages.map((language) => ({ language, scheme })));
}

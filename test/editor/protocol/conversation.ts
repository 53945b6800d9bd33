// The usual steps of a conversation: to begin it as one kind of client or another, to open and edit, to ask for diagnostics
// until they are whole, to end it.

import type { Diagnostic, DocumentDiagnosticReport } from 'vscode-languageserver';
import { startClient, type TestClient } from './client';

/** What kinds of client say of themselves, as far as it matters here. */
export const clients = {
  /** Is sent diagnostics. */
  pushed: {},
  /** Asks for diagnostics, and again when told to. */
  pulling: { textDocument: { diagnostic: {} }, workspace: { diagnostics: { refreshSupport: true } } },
  /** Asks for diagnostics and cannot be told to ask again. */
  patient: { textDocument: { diagnostic: {} } },
} as const;

export interface Beginning {
  readonly capabilities?: object;
  readonly initializationOptions?: object;
}

export async function begin(command: readonly string[], beginning: Beginning = {}): Promise<TestClient> {
  const client = startClient(command);
  const { capabilities = clients.patient, initializationOptions } = beginning;
  await client.request('initialize', { processId: process.pid, rootUri: null, capabilities, initializationOptions });
  client.notify('initialized', {});
  return client;
}

export async function end(client: TestClient): Promise<number | null> {
  await client.request('shutdown');
  client.notify('exit');
  return client.ended();
}

export function open(client: TestClient, uri: string, text: string, version = 1): void {
  client.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'verilog', version, text } });
}

export function replace(client: TestClient, uri: string, text: string, version: number): void {
  client.notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [{ text }] });
}

/** For clients that ask: what is answered once nothing newer cuts it short. */
export async function pull(client: TestClient, uri: string): Promise<readonly Diagnostic[]> {
  for (;;) {
    const { error, result } = await client.request('textDocument/diagnostic', { textDocument: { uri } });
    if (error === undefined) return (result as DocumentDiagnosticReport & { items: Diagnostic[] }).items;
    if (error.code !== serverCancelled) throw new Error(error.message);
  }
}

/** Protocol 3.17, LSPErrorCodes. */
export const serverCancelled = -32802;

export function idsOf(diagnostics: readonly Diagnostic[]): readonly string[] {
  return diagnostics.map(({ code }) => String(code));
}

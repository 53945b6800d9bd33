// The extension's entry: starts the language server and registers what the manifest promises. It only wires; the server
// does the reading and predicting.

import type { ExtensionContext } from 'vscode';
import { registerCommands } from './commands';
import { createPanels } from './panels';
import { createServerClient } from './server-client';

export async function activate({ extensionUri, subscriptions }: ExtensionContext): Promise<void> {
  const client = createServerClient(extensionUri);
  const panels = createPanels(client, extensionUri);
  subscriptions.push(client, panels, ...registerCommands({ client, panels, extensionUri }));
  await client.start();
}

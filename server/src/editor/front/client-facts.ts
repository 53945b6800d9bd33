// What the client can do, as far as it matters here.

import type { InitializeParams } from 'vscode-languageserver';
import type { HoverOptions } from '../features/hover';
import type { ServerOptions } from '../panel-messages';

export interface ClientFacts {
  /** Asks for diagnostics; who does not is sent them. */
  readonly pullsDiagnostics: boolean;
  /** Asks anew when told that something changed. */
  readonly refreshes: {
    readonly diagnostics: boolean;
    readonly codeLens: boolean;
    readonly inlayHint: boolean;
    readonly semanticTokens: boolean;
  };
  /** Answers questions about its settings. */
  readonly hasConfiguration: boolean;
  readonly registersConfiguration: boolean;
  /** Watches files when asked to. */
  readonly watchesFiles: boolean;
  /** Reads files that are not on this machine's disk. */
  readonly readsFiles: boolean;
  /** Lists the files of a folder. */
  readonly findsFiles: boolean;
  /** Tells of folders that come to the workspace or leave it. */
  readonly tellsFolders: boolean;
  /** Shows completions with places to fill in. */
  readonly fillsIn: boolean;
  readonly hover: HoverOptions;
  /** Settings for a client that cannot be asked. */
  readonly settings: unknown;
}

export function clientFacts({ capabilities, initializationOptions }: InitializeParams): ClientFacts {
  const { textDocument, workspace } = capabilities;
  const options = (initializationOptions ?? {}) as ServerOptions;
  return {
    pullsDiagnostics: textDocument?.diagnostic !== undefined,
    refreshes: {
      diagnostics: workspace?.diagnostics?.refreshSupport === true,
      codeLens: workspace?.codeLens?.refreshSupport === true,
      inlayHint: workspace?.inlayHint?.refreshSupport === true,
      semanticTokens: workspace?.semanticTokens?.refreshSupport === true,
    },
    hasConfiguration: workspace?.configuration === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    readsFiles: options.readsFiles === true,
    findsFiles: options.findsFiles === true,
    tellsFolders: workspace?.workspaceFolders === true,
    fillsIn: textDocument?.completion?.completionItem?.snippetSupport === true,
    hover: {
      format: textDocument?.hover?.contentFormat?.includes('markdown') === true ? 'markdown' : 'plaintext',
      pictures: options.showsPictures === true ? 'shown' : 'left out',
    },
    settings: options.settings ?? null,
  };
}

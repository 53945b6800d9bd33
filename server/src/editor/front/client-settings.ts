// The settings of each open document: asked of the client where it can be asked, else as it last sent them.

import { type EditorSettings, readSettings } from '../settings';

export interface SettingsTools {
  /** What the client has set below `foretick` for a document; null where it cannot be asked. */
  readonly ask: ((document: string) => Promise<unknown>) | null;
  /** As sent when the server was started. */
  readonly initial: unknown;
}

export interface ClientSettings {
  of(document: string): Promise<EditorSettings>;
  /** From `workspace/didChangeConfiguration`: all settings, or those below `foretick` alone. */
  hear(settings: unknown): void;
}

export function createClientSettings({ ask, initial }: SettingsTools): ClientSettings {
  let sent = initial;
  return {
    async of(document) {
      if (ask === null) return readSettings(sent);
      try {
        return readSettings(await ask(document));
      } catch {
        return readSettings(sent);
      }
    },
    hear(settings) {
      const own = (settings as { readonly foretick?: unknown } | null)?.foretick;
      if (own !== undefined) sent = own;
    },
  };
}

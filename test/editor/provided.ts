// What the run hands to its test files.

import type { Host } from './host.mjs';

declare module 'vitest' {
  export interface ProvidedContext {
    host: Host;
  }
}

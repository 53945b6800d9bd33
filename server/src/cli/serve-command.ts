// `foretick serve --stdio`: the language server for any editor that speaks the protocol. Ends when the client says so.

import type { World } from './world';

export function runServe(world: World): Promise<never> {
  return world.serve();
}

// A condition that cannot happen, unless the project has a bug. Thrown with the reason, caught at the
// edge (editor, command line), where it becomes a report of our own mistake, never of the design's.

export class Impossible extends Error {
  override readonly name = 'Impossible';
}

export function impossible(why: string): never {
  throw new Impossible(why);
}

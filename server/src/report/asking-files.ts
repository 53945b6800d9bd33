// Which file asks for a module that is not given: the one in which the first instance of it stands.

import type { Study } from './study';

/** By name of the module; paths as the study has them. */
export function* askingFiles(study: Study): Generator<void, ReadonlyMap<string, string>> {
  const { netlist } = yield* study.elaboration();
  const { spanOf } = yield* study.places();
  const asking = new Map<string, string>();
  for (const { module, place } of netlist?.blackBoxes ?? []) {
    if (!asking.has(module)) asking.set(module, spanOf(place).file);
  }
  return asking;
}

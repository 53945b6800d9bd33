// A design unit by its name, out of the study of a document or of what was gathered for it from the workspace.

import { type KnownUnits, knowUnits } from '../../report/name-lookup';
import type { Study } from '../../report/study';
import { type UnitHeader, unitHeader } from '../../report/unit-header';
import type { Reading } from '../../syntax/read';
import type { WorkspaceView } from './workspace-view';

/** Null where it is nowhere at hand. */
export function* headerOf(study: Study, { readings }: WorkspaceView, name: string): Generator<void, UnitHeader | null> {
  const own = yield* study.reading();
  for (const reading of [own, ...readings.map((each) => each.reading)]) {
    const header = headerIn(reading, knowUnits(reading), name);
    if (header !== null) return header;
    yield;
  }
  return null;
}

/** Those of the names that the study itself does not hold. */
export function* lackedUnits(study: Study, names: readonly string[]): Generator<void, readonly string[]> {
  const { byName } = knowUnits(yield* study.reading());
  return names.filter((name) => name !== '' && !byName.has(name));
}

function headerIn({ units }: Reading, known: KnownUnits, name: string): UnitHeader | null {
  const unit = known.byName.get(name);
  return unit === undefined ? null : unitHeader(unit.table, units[unit.index].text);
}

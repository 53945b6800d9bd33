// From names in the text to signals of the design: a name stands for one signal in every instance of its module.

import type { Span } from '../text/place';
import type { NameUse } from './name-table';
import type { Study } from './study';

/** Full names of the signals that are declared where one of the uses stands, in the order of the design. */
export function* signalsMeant(study: Study, uses: readonly NameUse[]): Generator<void, readonly string[]> {
  if (uses.length === 0) return [];
  const { netlist } = yield* study.elaboration();
  if (netlist === null) return [];
  const { spanOf } = yield* study.places();
  const starts = new Set(uses.map(({ span }) => startOf(span)));
  return netlist.signals.filter(({ place }) => starts.has(startOf(spanOf(place)))).map(({ name }) => name);
}

function startOf({ column, file, line }: Span): string {
  return `${line}:${column} ${file}`;
}

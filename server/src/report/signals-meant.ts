// From names in the text to what they are in the design: a name stands for one signal in every instance of its module, and
// for one value of a parameter.

import type { Span } from '../text/place';
import type { NameUse } from './name-table';
import { parameterText } from './parameter-text';
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

export interface ParameterMeant {
  /** Path of the instance; empty for the top. */
  readonly instance: string;
  readonly value: string;
}

/** The values of the parameter that is declared where one of the uses stands, one per instance. */
export function* parametersMeant(study: Study, uses: readonly NameUse[]): Generator<void, readonly ParameterMeant[]> {
  const { netlist } = yield* study.elaboration();
  if (netlist === null) return [];
  const { spanOf } = yield* study.places();
  const starts = new Set(uses.map(({ span }) => startOf(span)));
  return netlist.instances.flatMap(({ parameters, path }) =>
    parameters
      .filter(({ place }) => starts.has(startOf(spanOf(place))))
      .map(({ signed, value }) => ({ instance: path, value: parameterText(value, signed) })),
  );
}

function startOf({ column, file, line }: Span): string {
  return `${line}:${column} ${file}`;
}

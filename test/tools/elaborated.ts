// Verilog text to a netlist, for tests: read, elaborated, complaints of both stages in one list.

import { type LimitName, limitDefaults } from '../../server/src/budget';
import { type Elaboration, elaborate } from '../../server/src/elaborate/elaborate';
import type { Netlist } from '../../server/src/netlist/netlist';
import type { Reading } from '../../server/src/syntax/read';
import type { Complaint } from '../../server/src/text/complaint';
import type { SourceFile } from '../../server/src/text/source';
import { readSources } from './reading';

export interface ElaboratedOptions {
  readonly top?: string;
  readonly parameters?: Readonly<Record<string, string>>;
  readonly limits?: Partial<Record<LimitName, number>>;
  /** Files that `$readmemh` may name, by the path as written. */
  readonly data?: Readonly<Record<string, string>>;
}

export interface Elaborated {
  /** Fails the test where there is no top. */
  readonly netlist: Netlist;
  readonly elaboration: Elaboration;
  readonly reading: Reading;
  /** Of reading, then of elaboration. */
  readonly complaints: readonly Complaint[];
}

/** One text stands for a file `test.v`. */
export async function netlistOf(
  source: string | readonly SourceFile[],
  options: ElaboratedOptions = {},
): Promise<Elaborated> {
  const limits = { ...limitDefaults, ...options.limits };
  const files = typeof source === 'string' ? [{ path: 'test.v', text: source }] : source;
  const reading = await readSources(files, { limits });
  const { top = null, parameters = {}, data = {} } = options;
  const dataFile = (path: string) => data[path] ?? null;
  const elaboration = finish(elaborate({ units: reading.units, top, parameters, limits, dataFile }));
  const complaints = [...reading.complaints, ...elaboration.complaints];
  return {
    get netlist() {
      if (elaboration.netlist !== null) return elaboration.netlist;
      throw new Error(`no netlist; complaints: ${JSON.stringify(complaints)}`);
    },
    elaboration,
    reading,
    complaints,
  };
}

function finish<Result>(steps: Generator<void, Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

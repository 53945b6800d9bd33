// What one report has that another has not: registers, clocks, crossings, resets, glitches, sequences, outputs and findings
// gained, lost or altered. Places are left out: a line added above moves all of them and alters nothing.

import { type Change, type Comparison, comparedKinds } from './comparison';
import type { Report } from './report';

/** In the order of the kinds, then of the names; what is lost or altered as the first report has it, then what is gained. */
export function compareReports(before: Report, after: Report): Comparison {
  const [first, second] = [entriesOf(before), entriesOf(after)];
  return { changes: comparedKinds.flatMap((kind) => changesOf(kind, first[kind], second[kind])) };
}

type Fields = Readonly<Record<string, string>>;
type Entries = ReadonlyMap<string, Fields>;

function changesOf(kind: Change['kind'], before: Entries, after: Entries): readonly Change[] {
  const lostOrAltered = [...before].flatMap(([name, fields]): Change[] => {
    const now = after.get(name);
    if (now === undefined) return [{ kind, what: 'lost', name, fields: [] }];
    const altered = Object.keys(fields)
      .filter((field) => fields[field] !== now[field])
      .map((field) => ({ field, from: fields[field], to: now[field] }));
    return altered.length === 0 ? [] : [{ kind, what: 'altered', name, fields: altered }];
  });
  const gained = [...after.keys()]
    .filter((name) => !before.has(name))
    .map((name): Change => ({ kind, what: 'gained', name, fields: [] }));
  return [...lostOrAltered, ...gained];
}

function entriesOf(report: Report): Readonly<Record<Change['kind'], Entries>> {
  const { chains, clocks, counts, crossings, domains, findings, glitches, latches, memories, outputs, registers } =
    report;
  return {
    register: named(registers, ({ name }) => name, [
      'clock',
      'root',
      'domain',
      'stage',
      'asynchronous',
      'synchronous',
      'enable',
      'updateEvery',
      'start',
      'startFrom',
      'settles',
      'ratio',
      'duty',
    ]),
    latch: named(latches, ({ name }) => name, ['gate', 'domain', 'intended']),
    memory: named(memories, ({ name }) => name, ['words', 'width', 'ports']),
    clock: named(clocks, ({ signal }) => signal, ['kind', 'from', 'ratio', 'duty', 'sound', 'domain', 'registers']),
    domain: named(domains, ({ name }) => name, ['roots', 'registers', 'related', 'leastPeriod']),
    chain: named(chains, (chain) => chain.registers.join(' '), ['root', 'settle', 'worst', 'maxClockHz']),
    sequence: named(counts, (count) => count.registers.join(' '), [
      'kind',
      'modulus',
      'period',
      'polynomial',
      'values',
      'trapped',
    ]),
    transfer: named(report.transfers, ({ from, to }) => `${from} to ${to}`, ['skew', 'setup', 'hold']),
    crossing: named(crossings, ({ sources, to }) => `${sources.join(' ')} to ${to}`, [
      'fromDomain',
      'toDomain',
      'synchronizer',
      'depth',
      'status',
    ]),
    reset: named(report.resets, ({ active, kind, signal }) => `${signal} ${active} ${kind}`, [
      'release',
      'registers',
      'domains',
    ]),
    glitch: named(glitches, ({ registers: from, signal }) => `${signal} from ${from.join(' ')}`, [
      'certainty',
      'harmless',
      'transitionsTotal',
    ]),
    output: named(outputs, ({ name }) => name, ['form', 'glitchFree']),
    finding: named(findings, ({ id, signals }) => [id, ...signals].join(' '), ['severity', 'certainty', 'accepted']),
  };
}

/** Entries of one name are numbered: two findings may be about the same signals. */
function named<Entry extends object>(
  entries: readonly Entry[],
  nameOf: (entry: Entry) => string,
  fields: readonly (keyof Entry & string)[],
): Entries {
  const found = new Map<string, Fields>();
  for (const entry of entries) {
    const name = nameOf(entry);
    let key = name;
    for (let count = 2; found.has(key); count++) key = `${name} (${count})`;
    found.set(key, Object.fromEntries(fields.map((field) => [field, JSON.stringify(entry[field] ?? null)])));
  }
  return found;
}

// Where the text gives decodes their values: one continuous assignment for each, or a process of logic of their own.

import type { Finding } from '../hazards/finding';
import type { Signal } from '../netlist/netlist';
import type { At, Statement } from '../syntax/tables';
import { type Assignment, assignmentsIn } from './clocked-form';
import type { CureContext } from './cure';
import { beginningOf, definitionOf, moduleOf, wholeValue } from './declared';
import { namesIn } from './next-expression';
import type { ProcessItem } from './text';

export interface DecodeText {
  /** Local name; of a process, all that it gives. */
  readonly local: string;
  readonly targets: readonly string[];
  readonly signals: readonly Signal[];
  /** Bits as the finding names them. */
  readonly names: readonly string[];
  readonly unit: number;
  /** Where its words begin. */
  readonly start: number;
  /** The value, or the statement of the process. */
  readonly whole: { readonly at: At };
  /** Null for a continuous assignment. */
  readonly process: {
    readonly item: ProcessItem;
    readonly body: Statement;
    readonly assignments: readonly Assignment[];
  } | null;
}

/** Of all decodes that the finding tells of; null where one of them is written otherwise. */
export function decodesOf(context: CureContext, finding: Finding): readonly DecodeText[] | null {
  const { netlist } = context.facts;
  const bits = (finding.facts.decodes as readonly string[] | undefined) ?? [String(finding.facts.signal)];
  const bySignal = new Map<Signal, string[]>();
  for (const name of bits) {
    const signal = netlist.signals.find((one) => one.name === name || one.name === name.replace(/\[-?\d+\]$/, ''));
    if (signal === undefined) return null;
    bySignal.set(signal, [...(bySignal.get(signal) ?? []), name]);
  }
  const found: DecodeText[] = [];
  for (const signal of bySignal.keys()) {
    if (found.some(({ signals }) => signals.includes(signal))) continue;
    const one = decodeOf(context, signal, bySignal);
    if (one === null || one.unit !== (found[0] ?? one).unit) return null;
    found.push(one);
  }
  return found.length === 0 ? null : found;
}

function decodeOf(
  context: CureContext,
  signal: Signal,
  decodes: ReadonlyMap<Signal, readonly string[]>,
): DecodeText | null {
  const { unit } = signal.place;
  const module = moduleOf(context, unit);
  if (module === null) return null;
  const local = signal.localName;
  const shared = { local, names: decodes.get(signal) ?? [], unit };
  const definition = definitionOf(module, local);
  if (definition !== null) {
    const { text } = context.reading.units[unit];
    const start = beginningOf(text, definition);
    if (start === null) return null;
    return {
      ...shared,
      targets: [local],
      signals: [signal],
      start,
      whole: wholeValue(text, definition.value),
      process: null,
    };
  }
  const process = module.items.find(
    (item): item is ProcessItem =>
      item.kind === 'process' && assignmentsIn(item.body).some(({ target }) => baseName(target) === local),
  );
  if (process === undefined) return null;
  const made = ownProcess(context, unit, process);
  if (made === null) return null;
  const { signals: known } = context.facts.netlist;
  const signals = made.targets.map((target) =>
    known.find((one) => one.localName === target && one.instance === signal.instance),
  );
  if (signals.some((one) => one === undefined)) return null;
  return {
    ...shared,
    local: made.targets.join(', '),
    targets: made.targets,
    signals: signals as readonly Signal[],
    names: signals.flatMap((one) => (one === undefined ? [] : (decodes.get(one) ?? []))),
    start: process.at.start,
    whole: made.body,
    process: { item: process, body: made.body, assignments: made.assignments },
  };
}

/** A process of logic that does not read what it gives; null where it is no such. */
function ownProcess({ reading }: CureContext, unit: number, process: ProcessItem) {
  const { text } = reading.units[unit];
  const isComb = process.flavor === 'always_comb';
  const body = process.body.kind === 'event' ? process.body.body : isComb ? process.body : null;
  if (body === null || (process.body.kind === 'event' && process.body.control.items.some(({ edge }) => edge !== null)))
    return null;
  const assignments = assignmentsIn(body);
  const targets = [...new Set(assignments.map(({ target }) => baseName(target)))];
  const isPlain = assignments.every(
    ({ blocking, delay, event, target }) => blocking && delay === null && event === null && target.kind === 'name',
  );
  const reads = namesIn(text, body.at.start, body.at.end).filter(
    ({ start }) => !assignments.some(({ target }) => target.at.start <= start && start < target.at.end),
  );
  if (!isPlain || targets.length === 0 || reads.some(({ name }) => targets.includes(name))) return null;
  return { body, assignments, targets };
}

function baseName(target: Assignment['target']): string {
  if (target.kind === 'index' || target.kind === 'range') return baseName(target.base);
  return target.kind === 'name' ? target.name : '';
}

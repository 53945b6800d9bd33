// `mixed-assignment`: a variable gets one kind of assignment. In a clocked process `<=`, so that whoever samples it reads the
// value from before the edge, in any order; in a process of logic `=`. Where the process itself reads what it has written,
// `<=` means another circuit: that is offered apart, with the reads that change, and asked about.

import type { Finding } from '../hazards/finding';
import type { Place } from '../text/place';
import { listWords } from '../explain/words';
import { type Assignment, assignmentsIn } from './clocked-form';
import type { CureContext, CureRule, Proposal } from './cure';
import { inserting, replacing, type UnitEdit } from './edits';
import { namesIn } from './next-expression';
import { findWord, type ProcessItem, processAt } from './text';

export const oneKind: readonly CureRule[] = [
  { finding: 'mixed-assignment', propose: sameCircuit },
  { finding: 'mixed-assignment', propose: otherReads },
];

interface Found {
  readonly process: ProcessItem;
  readonly name: string;
  readonly isClocked: boolean;
  /** Those of the other kind. */
  readonly written: readonly Assignment[];
  readonly edits: readonly UnitEdit[];
}

function sameCircuit(context: CureContext, finding: Finding): Proposal | null {
  const found = findOne(context, finding);
  if (found === null) return null;
  const { edits, isClocked, name } = found;
  return {
    title: `assign ${name} with ${isClocked ? '<=' : '='}`,
    edits,
    promise: { kind: 'circuit' },
    differs: [
      isClocked
        ? `run as a program, whoever samples ${name} at the same edge${readersOf(context, finding)} reads the value from before it, in any order`
        : `run as a program, what reads ${name} in the same step reads what was assigned last`,
    ],
  };
}

function otherReads(context: CureContext, finding: Finding): Proposal | null {
  const found = findOne(context, finding);
  if (found === null || !found.isClocked) return null;
  const lines = ownReads(context, finding, found);
  if (lines.length === 0) return null;
  const { edits, name } = found;
  return {
    title: `assign ${name} with <=, which changes what its own process reads`,
    edits,
    promise: { kind: 'none' },
    differs: [
      `${name} is read with the value from before the edge in line ${listWords(lines)}, instead of what was just assigned`,
    ],
    asks: [`the read of ${name} in line ${listWords(lines)} comes one period later`],
  };
}

function findOne({ facts, reading }: CureContext, { facts: { how }, place, signals: [name] }: Finding): Found | null {
  const process = processAt(reading, place);
  if (process === null) return null;
  const local = name.slice(name.lastIndexOf('.') + 1).replace(/\[[^\]]*\]$/, '');
  const at = facts.netlist.processes.find(
    (one) => one.place.unit === place.unit && one.place.start === process.at.start,
  );
  const isClocked = at?.kind === 'clocked' || how === 'blocking-read-elsewhere';
  const written = assignmentsIn(process.body).filter(
    ({ blocking, target }) => blocking === isClocked && isPartOf(target, local),
  );
  const { text } = reading.units[place.unit];
  const edits = written.map(({ target, value }): UnitEdit | null => {
    const mark = findWord(text, [isClocked ? '=' : '<='], target.at.end, value.at.start);
    if (mark === null) return null;
    return isClocked
      ? inserting(place.unit, mark, '<')
      : replacing({ unit: place.unit, start: mark, end: mark + 2 } as Place, '=');
  });
  if (edits.length === 0 || edits.includes(null)) return null;
  return { process, name: local, isClocked, written, edits: edits as readonly UnitEdit[] };
}

/** Lines in which the process reads the variable behind its first assignment to it. */
function ownReads(
  { facts: { places }, reading }: CureContext,
  { place }: Finding,
  { name, process, written }: Found,
): readonly string[] {
  const { text } = reading.units[place.unit];
  const first = Math.min(...written.map(({ at }) => at.end));
  const targets = assignmentsIn(process.body).map(({ target }) => target.at.start);
  const reads = namesIn(text, first, process.at.end).filter(
    (one) => one.name === name && !targets.includes(one.start as never),
  );
  const lines = reads.map(({ end, start }) => places.spanOf({ unit: place.unit, start, end } as Place).line);
  return [...new Set(lines)].map(String);
}

/** ` (w in line 5)`: where another process samples it. */
function readersOf({ facts: { places } }: CureContext, { facts: { how }, related }: Finding): string {
  if (how !== 'blocking-read-elsewhere' || related.length === 0) return '';
  const lines = [...new Set(related.map(({ place }) => places.spanOf(place).line))];
  return `, in line ${listWords(lines.map(String))},`;
}

function isPartOf(target: Assignment['target'], name: string): boolean {
  if (target.kind === 'index' || target.kind === 'range') return isPartOf(target.base, name);
  return target.kind === 'name' && target.name === name;
}

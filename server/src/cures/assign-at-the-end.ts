// `mixed-assignment` of a clocked process: a variable that another process of the same clock samples is written with `<=`,
// so that whoever samples it reads the value from before the edge. Where the process itself reads it after writing it, the
// two kinds mean different circuits: trying it tells.

import type { Statement } from '../syntax/tables';
import { statementsIn } from '../syntax/statements-in';
import { inserting } from './edits';
import type { CureRule } from './cure';
import { findWord, processAt } from './text';

export const assignAtTheEnd: CureRule = {
  finding: 'mixed-assignment',
  propose({ reading }, finding) {
    const process = processAt(reading, finding.place);
    const [name] = finding.signals;
    if (process === null || finding.facts.how !== 'blocking-read-elsewhere') return null;
    const local = name.slice(name.lastIndexOf('.') + 1).replace(/\[[^\]]*\]$/, '');
    const written = assignmentsTo(process.body, local);
    if (written.length === 0) return null;
    const { text } = reading.units[finding.place.unit];
    const marks = written.map(({ target, value }) => findWord(text, ['='], target.at.end, value.at.start));
    if (marks.some((mark) => mark === null)) return null;
    return {
      title: `assign ${local} with <=`,
      edits: marks.map((mark) => inserting(finding.place.unit, mark ?? 0, '<')),
      promise: { kind: 'circuit' },
      differs: [
        `run as a program, whoever samples ${local} at the same edge reads the value from before it, in any order`,
      ],
    };
  },
};

type Assignment = Extract<Statement, { kind: 'assign' }>;

function assignmentsTo(body: Statement, name: string): readonly Assignment[] {
  const found: Assignment[] = [];
  const pending = [body];
  for (let statement = pending.pop(); statement !== undefined; statement = pending.pop()) {
    if (statement.kind === 'assign' && statement.blocking && isPartOf(statement.target, name)) found.push(statement);
    pending.push(...statementsIn(statement));
  }
  return found;
}

function isPartOf(target: Assignment['target'], name: string): boolean {
  if (target.kind === 'index' || target.kind === 'range') return isPartOf(target.base, name);
  return target.kind === 'name' && target.name === name;
}

// `unintended-latch`: the process gives the value first, so that no way through it leaves the value alone. Where it is a
// single choice, the choice gets the branch that it lacks.

import { inserting } from './edits';
import type { Statement } from '../syntax/tables';
import { assignmentsIn } from './clocked-form';
import type { CureContext, CureRule, Proposal } from './cure';
import { findWord, indentationAt, isPlainName, lineEndOf, processAt } from './text';

export const firstValue: CureRule = {
  finding: 'unintended-latch',
  propose(context, finding) {
    const { reading } = context;
    const process = processAt(reading, finding.place);
    if (process === null) return null;
    const body = process.body.kind === 'event' ? process.body.body : process.body;
    const name = String(finding.facts.latch).replace(/\[[^\]]*\]$/, '');
    const local = name.slice(name.lastIndexOf('.') + 1);
    if (body?.kind === 'if' || body?.kind === 'case') return lastBranch(context, finding.place.unit, body, local);
    if (body?.kind !== 'block' || body.label !== null || body.declarations.length > 0 || !isPlainName(local))
      return null;
    const { text } = reading.units[finding.place.unit];
    const begin = findWord(text, ['begin'], body.at.start, body.at.end);
    const [first] = body.body;
    if (begin === null || first === undefined) return null;
    const behind = begin + 'begin'.length;
    const isOwnLine = text.slice(behind, first.at.start).includes('\n');
    const before = isOwnLine ? `${lineEndOf(text)}${indentationAt(text, first.at.start)}` : ' ';
    return {
      title: `give ${local} a value first: ${local} = 0`,
      edits: [inserting(finding.place.unit, behind, `${before}${local} = 0;`)],
      promise: { kind: 'none' },
      differs: [differenceOf(local)],
    };
  },
};

function differenceOf(name: string): string {
  return `where nothing assigns ${name}, it is 0 now instead of what it was before`;
}

/** `else` at the end of the chain, or `default`. */
function lastBranch(
  { reading }: CureContext,
  unit: number,
  body: Extract<Statement, { kind: 'if' | 'case' }>,
  name: string,
): Proposal | null {
  const { text } = reading.units[unit];
  if (!isPlainName(name) || assignmentsIn(body).some(({ target }) => target.kind !== 'name' || target.name !== name))
    return null;
  const shared = { promise: { kind: 'none' }, differs: [differenceOf(name)] } as const;
  if (body.kind === 'if') {
    let last = body;
    while (last.else?.kind === 'if') last = last.else;
    if (last.else !== null) return null;
    return {
      ...shared,
      title: `give ${name} a value in the other case: else ${name} = 0`,
      edits: [inserting(unit, last.at.end, ` else ${name} = 0;`)],
    };
  }
  const end =
    body.items.length === 0 ? null : findWord(text, ['endcase'], body.items[body.items.length - 1].at.end, body.at.end);
  if (end === null || body.items.some(({ isDefault }) => isDefault)) return null;
  const isOwnLine = /\n[ \t]*$/.test(text.slice(0, end));
  const item = `default: ${name} = 0;`;
  const behind = isOwnLine ? `${lineEndOf(text)}${indentationAt(text, end)}` : ' ';
  const before = isOwnLine ? indentationAt(text, body.items[0].at.start).slice(indentationAt(text, end).length) : '';
  return {
    ...shared,
    title: `give ${name} a value in all other cases: default`,
    edits: [inserting(unit, end, `${before}${item}${behind}`)],
  };
}

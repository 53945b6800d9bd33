// `unintended-latch`: the process gives the value first, so that no way through it leaves the value alone.

import { inserting } from './edits';
import type { CureRule } from './cure';
import { findWord, indentationAt, isPlainName, lineEndOf, processAt } from './text';

export const firstValue: CureRule = {
  finding: 'unintended-latch',
  propose({ reading }, finding) {
    const process = processAt(reading, finding.place);
    if (process === null) return null;
    const body = process.body.kind === 'event' ? process.body.body : process.body;
    const name = String(finding.facts.latch).replace(/\[[^\]]*\]$/, '');
    const local = name.slice(name.lastIndexOf('.') + 1);
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
      differs: [`where nothing assigns ${local}, it is 0 now instead of what it was before`],
    };
  },
};

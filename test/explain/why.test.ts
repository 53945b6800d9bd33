// Every reason that a room writes has a sentence. The reasons are collected from the sources: a literal after `reason`.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { complaintSentences, complaintWords } from '../../server/src/explain/complaints';
import { findingSentences } from '../../server/src/explain/findings';
import { whySentences, whyWords } from '../../server/src/explain/why';
import { readingIds } from '../../server/src/elaborate/reasons';
import { glitchLimitReasons, glitchReasons } from '../../server/src/hazards/reasons-glitch';
import { rules } from '../../server/src/hazards/all';
import { findingFacts } from '../../server/src/report/finding-facts';
import { readingReasons } from '../../server/src/syntax/reasons';

const source = new URL('../../server/src/', import.meta.url);

/** `reason: 'a'`, `reason: b ? 'a' : 'c'`, `return 'a'` in a function whose name ends in Reason, by file. */
function reasonsOf(room: string): readonly { readonly file: string; readonly reason: string }[] {
  const files = readdirSync(new URL(room, source)).filter((file) => file.endsWith('.ts'));
  return files.flatMap((file) => {
    const text = readFileSync(new URL(`${room}/${file}`, source), 'utf8');
    const found = [
      ...text.matchAll(/\breason: [^'\n]*'([^'\n]+)'(?:[^'\n]*'([^'\n]+)')?/g),
      ...text.matchAll(/Reason\([^)]*\): string \{\n[^}]*?'([a-z-]+)'[^'}]*'([a-z-]+)'/g),
    ];
    return found.flatMap((match) => match.slice(1).flatMap((reason) => (isReason(reason) ? [{ file, reason }] : [])));
  });
}

function isReason(text: string | undefined): boolean {
  return text !== undefined && /^[a-z]+(-[a-z]+)+$/.test(text);
}

describe('every reason has a sentence', () => {
  it.each(['clocks', 'predict', 'hazards'])('of %s', (room) => {
    const missing = reasonsOf(room).filter(({ reason }) => !Object.hasOwn(whySentences, reason));
    expect(missing).toEqual([]);
  });

  it('of findings, which also name their facts in the schema', () => {
    const ids = rules.map(({ id }) => id);
    expect(ids.filter((id) => !Object.hasOwn(findingSentences, id))).toEqual([]);
    expect(ids.filter((id) => !Object.hasOwn(findingFacts, id))).toEqual([]);
  });

  it('of verdicts about glitches', () => {
    expect(glitchReasons.filter((reason) => !Object.hasOwn(whySentences, reason))).toEqual([]);
  });

  it('and the collecting finds reasons at all', () => {
    expect(reasonsOf('clocks').map(({ reason }) => reason)).toEqual(
      expect.arrayContaining(['control-foreign', 'flops-in-a-row', 'control-from-black-box', 'control-stated-static']),
    );
  });

  it('of reading and of elaboration', () => {
    const reasons: string[] = [...Object.keys(readingReasons), ...Object.keys(readingIds), ...glitchLimitReasons];
    expect(reasons.filter((reason) => !Object.hasOwn(complaintSentences, reason))).toEqual([]);
    expect(Object.keys(complaintSentences).filter((reason) => !reasons.includes(reason))).toEqual([]);
  });
});

describe('sentences', () => {
  /** Any argument that a sentence may ask for, told apart by its name. */
  const args = new Proxy({}, { get: (_target, name) => (name === 'limit' ? 'unroll' : `<${String(name)}>`) });
  const whys = Object.keys(whySentences).map((reason) => whyWords({ reason, args }));
  const complaints = Object.keys(complaintSentences).map((reason) => complaintWords({ reason, args }));

  it('are lower case, without a full stop, and say their arguments', () => {
    for (const sentence of [...whys, ...complaints]) {
      expect(sentence).toMatch(/^[^A-Z].*[^.]$/s);
      expect(sentence).not.toContain('undefined');
      expect(sentence).not.toContain('[object');
    }
  });
});

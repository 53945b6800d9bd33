// The door of the cures: from a finding of a study, by its name and place, to what was tried on it.

import type { Study } from '../report/study';
import type { SliceParser } from '../syntax/slice-parser';
import { cureRules, proposalsFor } from './all';
import type { Cure } from './cure';
import { proveCure } from './prove';

export interface CuredFinding {
  readonly id: string;
  readonly file: string;
  /** From one. */
  readonly line: number;
}

/** Identifiers of the findings that some cure is known for. */
export const curedKinds: ReadonlySet<string> = new Set(cureRules.map(({ finding }) => finding));

/** Every cure of the first such finding, whether it holds or not; null where there is no such finding. */
export function* curesAt(
  opened: Study,
  parser: SliceParser,
  at: CuredFinding,
): Generator<void, readonly Cure[] | null> {
  // A caret that stays on a line asks again and again; a study never changes.
  const known = tried.get(opened) ?? new Map<string, readonly Cure[] | null>();
  tried.set(opened, known);
  const key = `${at.id} ${at.line} ${at.file}`;
  const cures = known.get(key);
  if (cures !== undefined) return cures;
  const found = yield* tryCures(opened, parser, at);
  known.set(key, found);
  return found;
}

const tried = new WeakMap<Study, Map<string, readonly Cure[] | null>>();

function* tryCures(opened: Study, parser: SliceParser, at: CuredFinding): Generator<void, readonly Cure[] | null> {
  const facts = yield* opened.design();
  const places = yield* opened.places();
  const finding = facts?.hazards.findings.find((one) => {
    const { file, line } = places.spanOf(one.place);
    return one.id === at.id && file === at.file && line === at.line;
  });
  if (facts === null || finding === undefined) return null;
  const cures: Cure[] = [];
  for (const proposal of proposalsFor({ reading: yield* opened.reading(), facts }, finding)) {
    const cure = yield* proveCure(opened, parser, finding, proposal);
    if (cure !== null) cures.push(cure);
  }
  return cures;
}

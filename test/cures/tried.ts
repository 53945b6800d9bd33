// Cures of a text, tried, with the text as it is afterwards.

import { proposalsFor } from '../../server/src/cures/all';
import type { Cure } from '../../server/src/cures/cure';
import { withEdits } from '../../server/src/cures/edits';
import { proveCure } from '../../server/src/cures/prove';
import { readyParser } from '../tools/parser';
import { studyOf, toEnd } from '../tools/report-of';

export interface Tried {
  readonly cure: Cure;
  readonly text: string;
}

/** Every proposal for the first finding of this kind that can be written into the text, whether it holds or not. */
export async function curesOf(text: string, id: string, project = '{}'): Promise<readonly Tried[]> {
  const files = [{ path: 'a.v', text }];
  const opened = await studyOf(files, { project });
  const facts = toEnd(opened.design());
  const finding = facts?.hazards.findings.find((one) => one.id === id);
  if (facts === null || finding === undefined) throw new Error(`there is no ${id}`);
  const proposals = proposalsFor({ reading: toEnd(opened.reading()), facts }, finding);
  const parser = await readyParser();
  const cures = proposals.flatMap((proposal) => toEnd(proveCure(opened, parser, finding, proposal)) ?? []);
  return cures.map((cure) => ({ cure, text: withEdits(files, cure.edits)[0].text }));
}

/** The first of them; null where there is none. */
export async function cureOf(text: string, id: string, project = '{}'): Promise<Tried | null> {
  const [first] = await curesOf(text, id, project);
  return first ?? null;
}

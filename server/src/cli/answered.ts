// A report whose what-if was answered: what cannot be asked of a design is refused, as every wrong argument is.

import { refuse } from '../report/refusal';
import type { Report } from '../report/report';

/** Throws a `Refusal` where it was not. */
export function answered(report: Report): Report {
  const refused = report.whatIf?.refused ?? null;
  return refused === null ? report : refuse(refused);
}

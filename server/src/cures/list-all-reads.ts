// `stale-sensitivity`: the list gives way to `@*`, which holds all that the process reads (IEEE 1364-2005 9.7.5).

import { replacing } from './edits';
import type { CureRule } from './cure';
import { processAt } from './text';

export const listAllReads: CureRule = {
  finding: 'stale-sensitivity',
  propose({ reading }, finding) {
    const process = processAt(reading, finding.place);
    if (process?.body.kind !== 'event') return null;
    const { end, start } = process.body.control.at;
    return {
      title: 'list all that it reads: @*',
      edits: [replacing({ unit: finding.place.unit, start, end }, '@*')],
      promise: { kind: 'circuit' },
      differs: ['run as a program, the process now answers at once, as the hardware does'],
    };
  },
};

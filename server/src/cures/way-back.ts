// `trap-state`: from a value that never leads back into the sequence, the register goes to where it starts, before anything
// else that happens at the clock.

import type { Count } from '../predict/prediction';
import { registerName } from '../hazards/subjects';
import { clockedForm } from './clocked-form';
import type { CureContext, CureRule } from './cure';
import { inserting } from './edits';
import { isPlainName } from './text';

/** Values compared with, in one condition. */
const mostValues = 16;

export const wayBack: CureRule = {
  finding: 'trap-state',
  propose(context, finding) {
    const { netlist, prediction } = context.facts;
    const count = prediction.counts.find(
      ({ registers }) =>
        registers.map((id) => registerName(netlist, id)).join(' ') ===
        (finding.facts.registers as readonly string[]).join(' '),
    );
    const held = count === undefined ? null : heldIn(context, count);
    if (count === undefined || held === null) return null;
    const form = clockedForm(context, netlist.registers[count.registers[0]]);
    const condition = conditionOf(count, held);
    const home = homeOf(count);
    if (form === null || condition === null || home === null) return null;
    const value = `${count.width}'d${home}`;
    return {
      title: `lead ${held} back to ${home} from the values that never return`,
      edits: [inserting(form.unit, form.body.at.start, `if (${condition}) ${held} <= ${value}; else `)],
      promise: { kind: 'readings' },
      differs: [
        `from a value outside its sequence ${held} goes to ${home} at the next edge, whatever else is asked for there`,
      ],
    };
  },
};

/** `q`, or `{a, b}` of registers that one process makes; null where they are parts of signals. */
function heldIn({ facts: { netlist } }: CureContext, { registers }: Count): string | null {
  const held = registers.map((id) => netlist.registers[id]);
  const names = held.map(({ signal }) => netlist.signals[signal].localName);
  const isWhole = held.every(
    ({ process, signal, width }) => process === held[0].process && width === netlist.signals[signal].width,
  );
  if (!isWhole || !names.every(isPlainName)) return null;
  return names.length === 1 ? names[0] : `{${names.join(', ')}}`;
}

/** The trapped values, or all but those of the sequence, whichever is shorter. */
function conditionOf({ leadIn, leadInTotal, trapped, values, valuesTotal, width }: Count, held: string): string | null {
  const isListed = leadIn.length === leadInTotal && values.length === valuesTotal;
  const used = [...leadIn, ...values];
  const among = (list: readonly string[]) => list.map((value) => `${held} == ${width}'d${value}`).join(' || ');
  if (trapped.length <= Math.min(used.length, mostValues)) return among(trapped);
  return isListed && used.length <= mostValues ? `!(${among(used)})` : null;
}

function homeOf({ leadIn, start, values }: Count): string | null {
  const home = [start, ...leadIn, ...values].find((value) => /^[0-9]+$/.test(value));
  return home ?? null;
}

// Nets that $setuphold and $recrem drive with a copy of the reference or the data, late enough that no window reaches
// back behind its signal (IEEE 1364-2005 15.5.1): by the larger of the limits that are negative. A net that several
// checks name takes the latest of them.

import type { DelayTriple } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { CheckArgument, SpecifyPart } from '../syntax/tables';
import { driveTarget } from './continuous';
import type { ModuleDraft } from './module-draft';
import { addProcess } from './processes';
import type { Scope } from './scope';
import { lowered, surroundings } from './specify-terms';
import { targetOf } from './targets';

type Check = Extract<SpecifyPart, { kind: 'check' }>;

/** `limits`: first the time before the reference, then that behind it. */
export function delayedNets(
  draft: ModuleDraft,
  scope: Scope,
  { args }: Check,
  [before, behind]: readonly DelayTriple[],
): void {
  const [reference, data] = args;
  driveDelayed(draft, scope, { net: args[7] ?? null, source: reference, delay: lateness(before) });
  driveDelayed(draft, scope, { net: args[8] ?? null, source: data, delay: lateness(behind) });
}

function lateness({ max, min, typ }: DelayTriple): DelayTriple {
  const [least, typical, most] = [-max, -typ, -min].map((late) => Math.max(0, late));
  return { min: Math.min(least, most), typ: typical, max: Math.max(least, most) };
}

interface DelayedNet {
  readonly net: CheckArgument | null;
  readonly source: CheckArgument | null;
  readonly delay: DelayTriple;
}

function driveDelayed(draft: ModuleDraft, scope: Scope, { delay, net, source }: DelayedNet): void {
  if (net === null || source === null) return;
  const target = targetOf(surroundings(draft, scope), net.expression);
  const [part] = target.parts;
  if (target.parts.length !== 1 || part.kind !== 'slice') return;
  const { delayed } = draft.specified;
  const known = delayed.get(part.signal.index);
  if (known !== undefined) {
    // Its node stands for the delay by number, which can still grow.
    draft.explicitDelays.entries[known] = laterOf(draft.explicitDelays.entries[known], delay);
    return;
  }
  const place = draft.source.place(net.at);
  const index = draft.explicitDelays.entries.push({ rise: delay, fall: delay, toZ: delay, place }) - 1;
  delayed.set(part.signal.index, index);
  const value = lowered(draft, scope, source.expression);
  const late = draft.nodes.add(Op.delay, draft.nodes.nodes.width[value], [value], index, place);
  const process = addProcess(draft, 'assign', net.at);
  driveTarget(draft, scope, process, target, { at: net.at, value: late, delay: null, releases: false });
}

function laterOf<Delay extends { readonly rise: DelayTriple }>(known: Delay, delay: DelayTriple): Delay {
  const { rise } = known;
  const later = {
    min: Math.max(rise.min, delay.min),
    typ: Math.max(rise.typ, delay.typ),
    max: Math.max(rise.max, delay.max),
  };
  return { ...known, rise: later, fall: later, toZ: later };
}

// What the delay set leaves open and the prediction therefore takes as 0, as one entry of `assumptions[]`. Only what this
// design has a use for: of latches where there are some, of clearing where something is cleared. Limits that are not
// stated (least width, least period, what a crossing needs) are not taken as 0: nothing is judged by them.

import type { DelaySet } from '../delays/delay-set';
import { logicClassOf } from '../delays/stage-delays';
import { unstatedEntries } from '../delays/unstated';
import { whyWords } from '../explain/why';
import { listWords } from '../explain/words';
import type { Netlist } from '../netlist/netlist';
import type { DesignFacts } from './design-facts';
import type { ReportAssumption } from './report';

export function unstatedDelays({ netlist, prediction }: DesignFacts): readonly ReportAssumption[] {
  const { delaySet } = prediction;
  const zero = unstatedEntries(delaySet).filter((entry) => isUsed(netlist, entry));
  if (zero.length === 0) return [];
  const args = { delaySet: delaySet.name, entries: listWords(zero) };
  const reason = whyWords({ reason: 'delays-unstated', args });
  return [{ about: 'delays', value: '0 ns', source: 'setting', reason, span: null }];
}

function isUsed(netlist: Netlist, entry: string): boolean {
  const stored = [...netlist.registers, ...netlist.latches];
  switch (entry as keyof DelaySet) {
    case 'logic':
      return netlist.nodes.op.some((op) => logicClassOf(op) !== null);
    case 'latch':
      return netlist.latches.length > 0;
    case 'clear':
    case 'recovery':
      return stored.some(({ asynchronous }) => asynchronous.length > 0);
    case 'setup':
    case 'hold':
      return netlist.registers.length > 0;
    default:
      return false;
  }
}

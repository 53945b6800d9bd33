// What the delay set leaves open and the prediction therefore takes as 0, as one entry of `assumptions[]`. Only what this
// design has a use for: of latches where there are some, of clearing where something is cleared. Limits that are not
// stated (least width, least period, what a crossing needs) are not taken as 0: nothing is judged by them.

import type { DelaySet } from '../delays/delay-set';
import { setOfRegister } from '../delays/own-delays';
import { logicClassOf } from '../delays/stage-delays';
import { unstatedEntries } from '../delays/unstated';
import { whyWords } from '../explain/why';
import { listWords } from '../explain/words';
import type { Netlist, Register } from '../netlist/netlist';
import type { DesignFacts } from './design-facts';
import type { ReportAssumption } from './report';

export function unstatedDelays({ netlist, prediction }: DesignFacts): readonly ReportAssumption[] {
  const { delaySet } = prediction;
  const zero = unstatedEntries(delaySet).filter((entry) => isUsed(netlist, delaySet, entry));
  if (zero.length === 0) return [];
  const args = { delaySet: delaySet.name, entries: listWords(zero) };
  const reason = whyWords({ reason: 'delays-unstated', args });
  return [{ about: 'delays', value: '0 ns', source: 'setting', reason, span: null }];
}

/** What specify blocks state in place of the set. */
export function specifiedDelays({ netlist }: DesignFacts): readonly ReportAssumption[] {
  const { checks = [], registers = [] } = netlist.specified ?? {};
  if (netlist.specified === undefined) return [];
  const timed = registers.filter(({ clockToQ }) => clockToQ !== null).length;
  const paths = netlist.explicitDelays.filter((delay) => delay.paths !== undefined).length;
  const args = { registers: timed, paths, checks: checks.length };
  const reason = whyWords({ reason: 'delays-specified', args });
  return [{ about: 'delays', value: 'specify', source: 'text', reason, span: null }];
}

/** What the text states for every register that could ask for it is not left open. */
function isUsed(netlist: Netlist, delaySet: DelaySet, entry: string): boolean {
  const { latches, registers } = netlist;
  const open = (key: 'clear' | 'setup' | 'hold' | 'recovery' | 'removal') =>
    registers.filter(({ id }) => setOfRegister(delaySet, id)[key] === null);
  const isControlled = ({ asynchronous }: Pick<Register, 'asynchronous'>) => asynchronous.length > 0;
  switch (entry as keyof DelaySet) {
    case 'logic':
      return netlist.nodes.op.some((op) => logicClassOf(op) !== null);
    case 'latch':
      return netlist.latches.length > 0;
    case 'clear':
      return [...open('clear'), ...latches].some(isControlled);
    case 'recovery':
    case 'removal':
      return open(entry as 'recovery').some(isControlled);
    case 'setup':
    case 'hold':
      return open(entry as 'setup').length > 0;
    default:
      return false;
  }
}

// `decoded-reset`: a register is cleared asynchronously by a decode of itself, as in a truncated counter. The clear ends
// as soon as the first flip-flop that makes it has answered: whether the others have had enough of it hangs on how much
// slower than that one they are.

import type { ResetUse } from '../clocks/network';
import { setOfRegister } from '../delays/own-delays';
import type { RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBitPastBuffers } from '../netlist/trace';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName } from './subjects';

export const decodedReset: FindingRule = {
  id: 'decoded-reset',
  find: (context) =>
    context.network.resets.filter((use) => isOfItself(context, use)).map((use) => findOne(context, use)),
};

/** Made by logic, and from a register that it clears. */
function isOfItself({ netlist }: HazardContext, { bit, kind, launchedBy, registers }: ResetUse): boolean {
  if (kind !== 'asynchronous' || !launchedBy.some((id) => registers.includes(id))) return false;
  const { node } = sourceBitPastBuffers(netlist.nodes, bit);
  return netlist.nodes.op[node] !== Op.register;
}

function findOne(context: HazardContext, use: ResetUse): RawFinding {
  const { netlist, network } = context;
  const name = (id: RegisterId) => registerName(netlist, id);
  const own = use.launchedBy.filter((id) => use.registers.includes(id));
  const first = netlist.registers[use.registers[0]];
  const answers: readonly (number | null)[] = own.map((id) => answerTime(context, id));
  const needed = use.registers.map((id) => setOfRegister(context.prediction.delaySet, id).width);
  const control = network.registers[first.id].asynchronous.find((entry) => entry.name === use.name);
  return {
    id: 'decoded-reset',
    certainty: null,
    signals: [use.name, ...use.registers.map(name)],
    instance: instancePath(netlist, first.instance),
    place: control?.place ?? use.place,
    related: own.map((id) => ({
      place: netlist.registers[id].place,
      why: { reason: 'reset-decoded-from', args: { register: name(id), reset: use.name } },
    })),
    facts: {
      reset: use.name,
      active: use.active,
      from: own.map(name),
      registers: use.registers.map(name),
      answerPs: answers.reduce((least, time) => (time === null ? least : Math.min(least ?? time, time)), null),
      neededPs: needed.reduce<number | null>(
        (most, width) => (width === null ? most : Math.max(most ?? 0, width.max)),
        null,
      ),
    },
    weight: {},
  };
}

/** How soon a register answers its clear: the pulse is no longer than that and the logic behind. ps; null: not stated. */
function answerTime({ prediction }: HazardContext, id: RegisterId): number | null {
  const { clear } = setOfRegister(prediction.delaySet, id);
  return clear === null ? null : Math.min(clear.rise.min, clear.fall.min);
}

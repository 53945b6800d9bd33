// `skewed-transfer` in its race form (definition 28): data and clock leave with one root edge, and neither "the new value
// is there a setup time before the clock" nor "the old one stays a hold time after it" is certain. Equal times are a
// race even where setup and hold are 0.

import { setOfRegister } from '../delays/own-delays';
import type { RegisterId } from '../netlist/netlist';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName } from './subjects';
import { sameEdgeTransfers, type Transfer } from './transfers';

export const skewedTransfer: FindingRule = {
  id: 'skewed-transfer',
  find: (context) => sameEdgeTransfers(context).flatMap((transfer) => judge(context, transfer)),
};

/** Registers that it is found for. */
export function skewedReceivers(context: HazardContext): ReadonlySet<RegisterId> {
  const skewed = sameEdgeTransfers(context).filter((transfer) => judge(context, transfer).length > 0);
  return new Set(skewed.map(({ to }) => to));
}

function judge(context: HazardContext, transfer: Transfer): RawFinding[] {
  const set = setOfRegister(context.prediction.delaySet, transfer.to);
  const setup = set.setup?.max ?? 0;
  const hold = set.hold?.max ?? 0;
  const { min, max } = transfer.dataAfterClock;
  const newIsThere = max < 0 && max <= -setup;
  const oldIsThere = min > 0 && min >= hold;
  return newIsThere || oldIsThere ? [] : [findOne(context, transfer, { setup, hold })];
}

function findOne(
  { netlist, network }: HazardContext,
  { from, to, dataAfterClock }: Transfer,
  { setup, hold }: { readonly setup: number; readonly hold: number },
): RawFinding {
  const receiver = netlist.registers[to];
  const names = { from: registerName(netlist, from), to: registerName(netlist, to) };
  return {
    id: 'skewed-transfer',
    certainty: 'possible',
    signals: [names.to, names.from],
    instance: instancePath(netlist, receiver.instance),
    place: receiver.samplePlace,
    related: [
      { place: netlist.registers[from].samplePlace, why: { reason: 'transfer-launch', args: names } },
      { place: receiver.clockPlace, why: { reason: 'transfer-capture', args: names } },
    ],
    facts: {
      ...names,
      fromClock: network.clocks[network.registers[from].clock].name,
      toClock: network.clocks[network.registers[to].clock].name,
      root: network.roots[network.registers[to].root?.root ?? 0]?.name ?? null,
      dataAfterClockMinPs: dataAfterClock.min,
      dataAfterClockTypPs: dataAfterClock.typ,
      dataAfterClockMaxPs: dataAfterClock.max,
      setupPs: setup,
      holdPs: hold,
    },
    weight: {},
  };
}

// `read-while-settling`: a register samples a ripple chain at a root edge by which the chain's last change is not sure to
// be there, and so a number that never was the count (definition 33). What one root edge moves and samples is
// `skewed-transfer`; what other clocks sample is a crossing; a single slow way between registers is `setup-hold`.

import type { RegisterId } from '../netlist/netlist';
import type { SettlingRead } from '../predict/settling-read';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { instancePath, registerName } from './subjects';

export const readWhileSettling: FindingRule = {
  id: 'read-while-settling',
  find: (context) => context.reads.map((read) => findOne(context, read)),
};

/** Registers that it is found for. */
export function settlingReaders({ reads }: HazardContext): ReadonlySet<RegisterId> {
  return new Set(reads.map(({ to }) => to));
}

function findOne({ netlist, network, prediction }: HazardContext, read: SettlingRead): RawFinding {
  const { available, chain, heard, path, settle, setup, to, worst, wrong } = read;
  const receiver = netlist.registers[to];
  const { registers, root } = network.chains[chain];
  const name = registerName(netlist, to);
  const bits = [...heard].reverse().map((id) => registerName(netlist, id));
  const needed = settle.max + path + setup;
  return {
    id: 'read-while-settling',
    certainty: read.isCertain ? 'certain' : 'possible',
    signals: [name, ...bits],
    instance: instancePath(netlist, receiver.instance),
    place: receiver.samplePlace,
    related: [
      {
        place: netlist.registers[registers[0]].samplePlace,
        why: { reason: 'chain-stage', args: { register: registerName(netlist, registers[0]), stage: 1 } },
      },
      { place: receiver.clockPlace, why: { reason: 'transfer-capture', args: { to: name } } },
    ],
    facts: {
      to: name,
      from: bits,
      root: root === null ? null : network.roots[root].name,
      delaySet: prediction.delaySet.name,
      availablePs: available.min,
      settleMinPs: settle.min,
      settleTypPs: settle.typ,
      settleMaxPs: settle.max,
      pathPs: path,
      setupPs: setup,
      worstFrom: worst?.from.toString() ?? null,
      worstTo: worst?.to.toString() ?? null,
      wrong: (wrong?.shown ?? []).map(({ instead, read: number }) => `${number} for ${instead}`),
      wrongTotal: wrong?.total ?? 0,
      readableClockHz: read.isWholePeriod && needed > 0 ? 1e12 / needed : null,
      enabled: read.isEnabled,
      clockAssumed: read.clockAssumed,
    },
    weight: {},
  };
}

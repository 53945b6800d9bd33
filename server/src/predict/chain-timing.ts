// When a chain has settled (definitions 20 and 33): over the transitions that its sequence really makes, never the sum
// of the slower direction of every stage. And the clock rates that follow from it.

import type { Chain } from '../clocks/network';
import { setOfRegister } from '../delays/own-delays';
import { latestTriple, zeroTriple } from '../delays/triple';
import { bitKey } from '../netlist/bit-key';
import type { DelayTriple, InstanceId, Netlist, Register, RegisterId } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import type { Arrivals } from './arrival';
import type { CountResult } from './counts';
import type { CountContext } from './counts-run';
import type { ChainTiming } from './prediction';

/**
 * `settling`: as the chain's sequence shows it. Without one `settle` takes every output in both directions, which is at
 * least as late, and `why` of the count says what was not proven.
 */
export function chainTimingOf(context: CountContext, chain: number, { settling, count }: CountResult): ChainTiming {
  const { network, delaySet, arrivals } = context;
  const { settle, worst } = settling ?? { settle: settleOverOutputs(arrivals, network.chains[chain]), worst: null };
  return {
    chain,
    settle,
    skew: skewOf(arrivals, network.chains[chain]),
    worst,
    maxClockHz: settle.max > 0 ? hertzOf(settle.max) : null,
    readableClockHz: settle.max > 0 ? hertzOf(settle.max + (delaySet.setup?.max ?? 0)) : null,
    toggleClockHz: toggleHertz(context, network.chains[chain].registers[0]),
    why: settling === null ? count.why : null,
  };
}

function settleOverOutputs(arrivals: Arrivals, { registers }: Chain): DelayTriple {
  const outputs = registers.flatMap((register) => {
    const { rise, fall } = arrivals.outputOf(register);
    return [rise ?? zeroTriple, fall ?? zeroTriple];
  });
  return outputs.reduce(latestTriple, zeroTriple);
}

/** From the first member's clock edge to the last member's: what leads up to the first is shared, and cancels. */
function skewOf(arrivals: Arrivals, { registers }: Chain): DelayTriple {
  const first = arrivals.clockOf(registers[0]);
  const last = arrivals.clockOf(registers[registers.length - 1]);
  if (first === null || last === null) return zeroTriple;
  return { min: last.min - first.min, typ: last.typ - first.typ, max: last.max - first.max };
}

/**
 * The published limit of the first stage, or the longest that a $period check of the text asks of its clock (IEEE
 * 1364-2005 15.3.5). A clock must be this slow even at worst, so the longest period counts.
 */
function toggleHertz({ delaySet, netlist }: CountContext, first: RegisterId): number | null {
  const period = checkedPeriod(netlist, netlist.registers[first]) ?? setOfRegister(delaySet, first).period?.max ?? 0;
  return period === 0 ? null : hertzOf(period);
}

function checkedPeriod({ instances, nodes, specified }: Netlist, { clock, instance }: Register): number | null {
  const pin = bitKey(sourceBit(nodes, clock));
  const periods = (specified?.checks ?? []).flatMap((check) => {
    const isAround = instance === check.instance || isInside(instances, instance, check.instance);
    const isOfPin = check.reference.bits.some((bit) => bitKey(sourceBit(nodes, bit)) === pin);
    return check.kind === 'period' && isAround && isOfPin ? [check.limits[0].max] : [];
  });
  return periods.length === 0 ? null : Math.max(...periods);
}

function isInside(instances: Netlist['instances'], inner: InstanceId, outer: InstanceId): boolean {
  for (let at = instances[inner].parent; at !== null; at = instances[at].parent) if (at === outer) return true;
  return false;
}

function hertzOf(ps: number): number {
  return 1e12 / ps;
}

// Transfers between registers of one domain whose clocks are not the same net, at one and the same root edge
// (definitions 28 and 29): when the data moves against when the clock arrives. Arrivals on the way that both share
// cancel. What stands between the edges of different halves or periods is not judged here.

import type { ClockId, ClockNetwork, RegisterClocking } from '../clocks/network';
import { addTriples } from '../delays/triple';
import type { DelayTriple, Netlist, Register, RegisterId } from '../netlist/netlist';
import { createLogicDelays } from '../predict/arrival-logic';
import type { HazardContext } from './context';
import { type RegisterBit, registersHeard } from '../netlist/registers-heard';

export interface Transfer {
  readonly from: RegisterId;
  readonly to: RegisterId;
  /** Data's change minus clock's arrival, ps: below 0 the new value is there first, above 0 the old one still is. */
  readonly dataAfterClock: { readonly min: number; readonly typ: number; readonly max: number };
}

export function sameEdgeTransfers(context: HazardContext): readonly Transfer[] {
  const { netlist, network, prediction } = context;
  const logic = createLogicDelays(netlist, prediction.delaySet);
  return netlist.registers.flatMap((to) =>
    sourcesOf(netlist, network, to)
      .filter((from) => sameRootEdge(network.registers[from], network.registers[to.id]))
      .flatMap((from) => compareTimes(context, from, to.id, logic.toDataOf(to.id))),
  );
}

/** Other registers in the data cone of `to`, but for the very bit that clocks it. */
function sourcesOf(netlist: Netlist, network: ClockNetwork, to: Register): readonly RegisterId[] {
  const clockSources = network.clocks[network.registers[to.id].clock].sourceRegisters;
  const isOwnClock = ({ register, bit }: RegisterBit) =>
    clockSources.some((source) => source.register === register && source.bit === bit);
  const heard = registersHeard(netlist, to).filter((bit) => bit.register !== to.id && !isOwnClock(bit));
  return [...new Set(heard.map(({ register }) => register))].sort((left, right) => left - right);
}

function sameRootEdge(from: RegisterClocking, to: RegisterClocking): boolean {
  if (from.clock === to.clock && from.edge === to.edge) return false;
  if (from.root === null || to.root === null || from.root.root !== to.root.root) return false;
  return from.root.edge === to.root.edge || from.root.edge === 'either' || to.root.edge === 'either';
}

function compareTimes(context: HazardContext, from: RegisterId, to: RegisterId, path: DelayTriple): Transfer[] {
  const { registers } = context.prediction;
  const { settles } = registers[from];
  const { arrival } = registers[to];
  if (settles === null || arrival === null) return [];
  const shared = sharedArrival(context, from, to);
  const data = addTriples(settles.all, path);
  const { min, typ, max } = arrival;
  return [
    {
      from,
      to,
      dataAfterClock: {
        min: data.min - shared.min - (max - shared.max),
        typ: data.typ - typ,
        max: data.max - shared.max - (min - shared.min),
      },
    },
  ];
}

/** Arrival at the last clock that both clock paths run through: its spread is the same for both. */
function sharedArrival({ network, prediction }: HazardContext, from: RegisterId, to: RegisterId): DelayTriple {
  const fromPath = new Set(clockPath(network, network.registers[from].clock));
  const none = { min: 0, typ: 0, max: 0 };
  let clocked: RegisterId = to;
  for (const clock of clockPath(network, network.registers[to].clock)) {
    if (fromPath.has(clock)) return prediction.registers[clocked].arrival ?? none;
    const [source] = network.clocks[clock].sourceRegisters;
    if (source !== undefined) clocked = source.register;
    else if (network.clocks[clock].kind !== 'inverted') return none;
  }
  return none;
}

/** A clock, what it is made from, and so on to the root; ends where it is made from several. */
function clockPath(network: ClockNetwork, start: ClockId): readonly ClockId[] {
  const path = [start];
  for (let { from } = network.clocks[start]; from.length === 1 && !path.includes(from[0]); ) {
    path.push(from[0]);
    from = network.clocks[from[0]].from;
  }
  return path;
}

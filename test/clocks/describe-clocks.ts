// Clock networks in words, for tests: each entry as one short line under its name.

import { findClocks } from '../../server/src/clocks/find-clocks';
import type { Clock, ClockNetwork, ClockOptions, RegisterClocking } from '../../server/src/clocks/network';
import { signalSliceName } from '../../server/src/netlist/bit-names';
import type { Netlist, RegisterId } from '../../server/src/netlist/netlist';

export const nothingStated: ClockOptions = { clockOperands: {}, related: [], cells: {}, static: [] };

export interface Described {
  readonly network: ClockNetwork;
  /** By register name: `clock edge, root edge, stage n, domain`. */
  readonly registers: Readonly<Record<string, string>>;
  /** By clock name: `kind of from, from`. */
  readonly clocks: Readonly<Record<string, string>>;
  readonly chains: readonly string[];
  register(name: string): RegisterClocking;
  clock(name: string): Clock;
}

export function describeClocks(netlist: Netlist, stated: Partial<ClockOptions> = {}): Described {
  const network = finish(findClocks(netlist, { ...nothingStated, ...stated }));
  const names = netlist.registers.map(({ signal, low, width }) => signalSliceName(netlist.signals[signal], low, width));
  const nameOf = (register: RegisterId) => names[register];
  return {
    network,
    registers: Object.fromEntries(network.registers.map((entry) => [nameOf(entry.register), lineOf(network, entry)])),
    clocks: Object.fromEntries(network.clocks.map((clock) => [clock.name, clockLine(clock)])),
    chains: network.chains.map(({ registers }) => registers.map(nameOf).join(' > ')),
    register: (name) => found(network.registers[names.indexOf(name)], name),
    clock: (name) =>
      found(
        network.clocks.find((clock) => clock.name === name),
        name,
      ),
  };
}

function found<Thing>(thing: Thing | undefined, name: string): Thing {
  if (thing === undefined) throw new Error(`nothing is called ${name}`);
  return thing;
}

function finish<Result>(work: Generator<void, Result>): Result {
  for (;;) {
    const turn = work.next();
    if (turn.done === true) return turn.value;
  }
}

function lineOf(network: ClockNetwork, { clock, edge, root, stage, domain }: RegisterClocking): string {
  const rootText = root === null ? 'no root' : `${network.roots[root.root].name} ${root.edge}`;
  const domainText = domain === null ? 'no domain' : network.domains[domain].name;
  return `${network.clocks[clock].name} ${edge}, ${rootText}, stage ${stage}, ${domainText}`;
}

function clockLine({ kind, fromNames }: Clock): string {
  return fromNames.length === 0 ? kind : `${kind} of ${fromNames.join(', ')}`;
}

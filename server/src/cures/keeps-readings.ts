// Whether a cure keeps what every register and every output of the top reads, told with how far that was looked at.

import type { RegisterId } from '../netlist/netlist';
import { topPorts } from '../netlist/netlist';
import { countWords, listWords, shortListWords } from '../explain/words';
import { registersHeard } from '../netlist/registers-heard';
import { type DesignFacts, registerName } from '../report/design-facts';
import type { Promised } from './cure';
import { type Explored, exploreBoth } from './explore';

export interface Kept {
  readonly holds: boolean;
  readonly says: readonly string[];
  readonly asks?: readonly string[];
}

export function* keepsReadings(
  before: DesignFacts | null,
  after: DesignFacts | null,
  { later, still }: Extract<Promised, { kind: 'readings' }>,
): Generator<void, Kept> {
  if (before === null || after === null) return { holds: false, says: ['there is no circuit to compare'] };
  const late = later?.names ?? [];
  const outputs = topPorts(before.netlist).filter(({ port }) => port === 'output');
  const registers = before.netlist.registers.map(({ id }) => registerName(before, id));
  const same = [...registers, ...outputs.map(({ name }) => name)].filter((name) => !late.includes(name));
  const explored = yield* exploreBoth(before, after, {
    same: [...new Set(same)],
    later: later === undefined ? null : { ...later, level: later.edge === 'rising' ? 1 : 0 },
    still: still ?? null,
  });
  switch (explored.kind) {
    case 'different':
      return { holds: false, says: [`${explored.name} reads otherwise`] };
    case 'unknown':
      return {
        holds: false,
        says: ['whether it reads the same cannot be told: it holds memories or modules that are not given'],
      };
    default:
      return { holds: true, says: [...saysOf(before, explored, late, still)], asks: asksOf(before, explored) };
  }
}

type Held = Extract<Explored, { kind: 'all' | 'run' }>;

function saysOf(
  before: DesignFacts,
  explored: Held,
  late: readonly string[],
  still: Extract<Promised, { kind: 'readings' }>['still'],
): readonly string[] {
  const count = before.netlist.registers.length;
  const what = `${count === 1 ? 'the register' : `each of ${countWords(count, 'register')}`} and every output`;
  const but = late.length === 0 ? '' : ` (${listWords(late)} one edge later)`;
  const how =
    explored.kind === 'all'
      ? `in every state that inputs can lead to from the start (${countWords(explored.states, 'state')} explored)`
      : `before each of ${countWords(explored.edges, 'edge')} with random inputs; not proven for all`;
  const level = still?.level === 1 ? 'high' : 'low';
  const while_ =
    still === undefined ? '' : `, as long as ${listWords(still.names)} moves only while ${still.clock} is ${level}`;
  return [`the same readings of ${what}${but} ${how}${while_}`];
}

/** Who took the old value of what, where the text as a program gives the new one. */
function asksOf(facts: DesignFacts, { sampledOld }: Held): readonly string[] {
  const { netlist, network } = facts;
  const byReader = new Map<RegisterId, RegisterId[]>();
  for (const pair of sampledOld) {
    const [from, to] = pair.split(' ').map(Number) as RegisterId[];
    if (!registersHeard(netlist, netlist.registers[to]).some(({ register }) => register === from)) continue;
    byReader.set(to, [...(byReader.get(to) ?? []), from]);
  }
  return [...byReader]
    .sort(([left], [right]) => left - right)
    .map(([to, from]) => {
      const names = from.sort((left, right) => left - right).map((id) => registerName(facts, id));
      const root = network.registers[to].root?.root ?? null;
      const edge = root === null ? 'the root edge' : `the edge of ${network.roots[root].name}`;
      return `${registerName(facts, to)} samples the value of ${shortListWords(names, 4)} from before ${edge} instead of after it`;
    });
}

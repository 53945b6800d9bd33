// Windows of a circuit and runs with other delays inside the same triples, for tests: every register, latch and operator
// gets a choice of its own, the same throughout a run (definition 21).

import { limitDefaults } from '../../server/src/budget';
import { findClocks } from '../../server/src/clocks/find-clocks';
import type { DelaySet, DirectionalDelay } from '../../server/src/delays/delay-set';
import { clockToQOf, logicClassOf } from '../../server/src/delays/stage-delays';
import { tripleOf } from '../../server/src/delays/triple';
import type { Bit, DelayTriple, Netlist, NodeId } from '../../server/src/netlist/netlist';
import { isSource, isWiring, opNames } from '../../server/src/netlist/operators';
import { predictWaves } from '../../server/src/predict/timed-engine';
import { originsOf } from '../../server/src/predict/wave-query';
import type { Waves } from '../../server/src/predict/waves';
import { findWindows, type Windows } from '../../server/src/predict/windows';
import { nothingStated } from '../clocks/describe-clocks';
import { driveBy, finish, type TimedOptions } from './timed';

export interface Windowed {
  readonly netlist: Netlist;
  readonly waves: Waves;
  readonly windows: Windows;
  /** A run in which each delay is chosen inside its triple. */
  runWith(choose: (triple: DelayTriple) => number): Waves;
}

export function windowsOf(netlist: Netlist, options: TimedOptions & { readonly delays: DelaySet }): Windowed {
  const network = finish(findClocks(netlist, nothingStated));
  const drive = driveBy(netlist, network, options);
  const run = {
    netlist,
    network,
    drive,
    until: options.until * 1000,
    limits: { ...limitDefaults, ...options.limits },
    start: options.start ?? ('0' as const),
  };
  const delaySet = options.delays;
  const waves = finish(predictWaves({ ...run, delaySet }));
  const windows = finish(findWindows({ ...run, delaySet, waves }));
  const stageOf = (register: number) => network.registers[register].stage;
  return {
    netlist,
    waves,
    windows,
    runWith: (choose) => finish(predictWaves({ ...run, delaySet: chosenSet(netlist, delaySet, stageOf, choose) })),
  };
}

function chosenSet(
  netlist: Netlist,
  set: DelaySet,
  stageOf: (register: number) => number,
  choose: (triple: DelayTriple) => number,
): DelaySet {
  const chosen = ({ rise, fall }: DirectionalDelay) => ({ rise: tripleOf(choose(rise)), fall: tripleOf(choose(fall)) });
  const { nodes } = netlist;
  const operators = Array.from({ length: nodes.count }, (_, node) => node as NodeId).filter(
    (node) => logicClassOf(nodes.op[node]) !== null,
  );
  return {
    ...set,
    own: {
      registers: new Map(
        netlist.registers.map(({ id }) => [
          id,
          {
            ...set,
            clockToQ: { first: chosen(clockToQOf(set, stageOf(id))), next: null },
            stagesPerPart: null,
            clear: set.clear && chosen(set.clear),
          },
        ]),
      ),
      latches: new Map(netlist.latches.map(({ id }) => [id, { ...set, latch: set.latch && chosen(set.latch) }])),
      nodes: new Map(
        operators.map((node) => {
          const own = logicClassOf(nodes.op[node]) as keyof NonNullable<DelaySet['logic']>;
          const delay = set.logic?.[own];
          return [node, { ...set, logic: delay === undefined ? set.logic : { ...set.logic, [own]: chosen(delay) } }];
        }),
      ),
    },
  };
}

/** Bits that may move: all but wiring and sources without a wave. */
export function movingBits({ nodes, registers, latches }: Netlist): readonly Bit[] {
  const stored = new Set<number>([...registers, ...latches].map(({ node }) => node));
  const found: Bit[] = [];
  for (let node = 0; node < nodes.count; node++) {
    const op = nodes.op[node];
    if (isWiring(op) || (isSource(op) && !stored.has(node))) continue;
    for (let bit = 0; bit < nodes.width[node]; bit++) found.push({ node: node as NodeId, bit });
  }
  return found;
}

/** Changes of a run that no window of their bit holds, each in words. */
export function outside({ netlist, windows }: Windowed, run: Waves): string[] {
  const origins = originsOf(run);
  return movingBits(netlist).flatMap((bit) =>
    Array.from(run.changesOf(bit)).flatMap((change) => {
      const at = run.changes.time[change];
      const own = windows.of(bit);
      if (own.some(({ from, to }) => from <= at && at <= to)) return [];
      const spans = own.map(({ from, to, moves }) => `${from}..${to} ${moves}`).join(', ');
      const root = run.changes.time[origins[change]];
      return [`${opNames[netlist.nodes.op[bit.node]]} ${bit.node} bit ${bit.bit} at ${at} from ${root}: ${spans}`];
    }),
  );
}

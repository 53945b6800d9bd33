// `structural-hazard` (definition 26): a sum of products whose value is the same before and after one input changes, and
// which no single term holds meanwhile: as written, it may drop for a moment. Only at ends that such a pulse can hurt, and
// only for a change that can happen: of a port alone with the registers in a state that is reached, or of one register bit
// alone in a step that is taken. Where the states are too many to be followed, nothing is said.

import { createContext } from '../clocks/context';
import { stepsOf } from '../clocks/state-steps';
import { bitKey } from '../netlist/bit-key';
import { createBitNames } from '../netlist/bit-names';
import type { Bit } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import { sourceBit } from '../netlist/trace';
import type { FindingRule, HazardContext, RawFinding } from './context';
import { type EndPin, findEnds } from './glitch-ends';
import { holdingTerm, type Level, type SumOfProducts, sumOfProducts } from './sum-of-products';

export const structuralHazard: FindingRule = {
  id: 'structural-hazard',
  find(context) {
    const names = createBitNames(context.netlist);
    const known = new Map<number, readonly EndPin[]>();
    for (const end of findEnds(context.netlist, context.network, () => null)) {
      if (!isDangerous(context, end)) continue;
      const key = bitKey(sourceBit(context.netlist.nodes, end.bit));
      known.set(key, [...(known.get(key) ?? []), end]);
    }
    return [...known.values()].flatMap((ends) => {
      const logic = sumOfProducts(context.netlist, ends[0].bit, mostInputs);
      const hazard = logic === null ? null : findHazard(context, logic);
      if (logic === null || hazard === null) return [];
      return [findingOf(context, ends, logic, hazard, (bit) => names.nameOf(bit) ?? '')];
    });
  },
};

const mostInputs = 8;

/** Clock, reset, latch gate, tri-state enable, a stated strobe, or another domain behind logic. */
function isDangerous({ netlist, network, options }: HazardContext, { kind, signal }: EndPin): boolean {
  if (kind === 'clock' || kind === 'reset' || kind === 'latch' || kind === 'tristate') return true;
  if (kind === 'output') return options.strobes.includes(signal);
  if (kind !== 'data') return false;
  return network.crossings.some(({ throughLogic, to }) => {
    const { name } = netlist.signals[netlist.registers[to].signal];
    return throughLogic && (signal === name || signal.startsWith(`${name}[`));
  });
}

interface Hazard {
  /** Index of the input that changes. */
  readonly moving: number;
  readonly levels: readonly Level[];
}

/** The first that can happen, in the order of the inputs and their levels. */
function findHazard(context: HazardContext, logic: SumOfProducts): Hazard | null {
  const { inputs } = logic;
  const candidates: Hazard[] = [];
  for (let moving = 0; moving < inputs.length; moving++) {
    for (let setting = 0; setting < 2 ** inputs.length; setting++) {
      if (((setting >> moving) & 1) === 1) continue;
      const levels = inputs.map((_, index): Level => ((setting >> index) & 1) as 0 | 1);
      const other = levels.map((level, index): Level => (index === moving ? 1 : level));
      const between = levels.map((level, index): Level => (index === moving ? 'x' : level));
      if (logic.valueAt(levels) === logic.valueAt(other) && logic.valueAt(between) === 'x')
        candidates.push({ moving, levels });
    }
  }
  return candidates.length === 0 ? null : (candidates.find(canHappen(context, inputs)) ?? null);
}

function canHappen({ netlist, network }: HazardContext, inputs: readonly Bit[]): (hazard: Hazard) => boolean {
  const { nodes } = netlist;
  const isRegister = inputs.map(({ node }) => nodes.op[node] === Op.register);
  const registers = inputs.filter((_, index) => isRegister[index]);
  if (registers.length === 0) return () => true;
  const context = createContext(netlist, { clockOperands: {}, related: [], cells: {}, static: [] });
  const steps = stepsOf(context, network.registers, registers);
  if (steps === null) return () => false;
  const digitsOf = ({ levels }: Hazard, moved: 0 | 1, moving: number) =>
    levels
      .map((level, index) => (index === moving ? moved : level))
      .filter((_, index) => isRegister[index])
      .join('');
  return (hazard) => {
    const { moving } = hazard;
    const [low, high] = [digitsOf(hazard, 0, moving), digitsOf(hazard, 1, moving)];
    if (!isRegister[moving]) return steps.states.has(low);
    return steps.taken.has(`${low} ${high}`) || steps.taken.has(`${high} ${low}`);
  };
}

function findingOf(
  context: HazardContext,
  ends: readonly EndPin[],
  logic: SumOfProducts,
  { levels, moving }: Hazard,
  nameOf: (bit: Bit) => string,
): RawFinding {
  const value = logic.valueAt(levels);
  const term = holdingTerm(logic, levels, moving).map((index) => {
    // In a product an input stands as it is, in a sum turned.
    const stands = (levels[index] === 1) === (value === 1);
    return `${stands ? '' : '~'}${nameOf(logic.inputs[index])}`;
  });
  const [end] = ends;
  return {
    id: 'structural-hazard',
    certainty: 'possible',
    signals: [...new Set([...ends.map(({ signal }) => signal), ...logic.inputs.map(nameOf)])],
    instance: '',
    place: placeOf(context, end),
    related: ends.map(({ kind, place, signal }) => ({
      place,
      why: { reason: `hazard-end-${kind}`, args: { end: signal } },
    })),
    facts: {
      moving: nameOf(logic.inputs[moving]),
      value: value === 1 ? 1 : 0,
      held: levels.flatMap((level, index) => (index === moving ? [] : [`${nameOf(logic.inputs[index])} ${level}`])),
      term: term.join(value === 1 ? ' & ' : ' | '),
      ends: ends.map(({ signal }) => signal),
      endKinds: ends.map(({ kind }) => kind),
    },
    weight: {},
  };
}

/** Where the logic is written. */
function placeOf({ netlist }: HazardContext, { bit, place }: EndPin): RawFinding['place'] {
  const { node } = sourceBit(netlist.nodes, bit);
  const index = netlist.nodes.place[node];
  return index < 0 ? place : netlist.places[index];
}

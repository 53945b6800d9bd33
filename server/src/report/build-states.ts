// The states of registers as the preview carries them: names as the text has them, conditions as written, and the sequence
// beside, where one is proven.

import { inOrder } from '../explain/places';
import { sequenceWords } from '../explain/sequence';
import { type ConditionStory, fateWord, methodWords, statesWords, whenWords } from '../explain/states';
import { whyWords } from '../explain/why';
import type { Bit, NodeId, RegisterId } from '../netlist/netlist';
import { Op } from '../netlist/operators';
import type { Fate } from '../predict/states-explore';
import { type Condition, findStates, type StateGraph } from '../predict/states';
import { type DesignFacts, registerName, shortened } from './design-facts';
import type { PreviewStates } from './preview-data';
import { stateNames } from './state-names';

/** By source position; yields after a fixed amount of work. */
export function* buildStates(facts: DesignFacts): Generator<void, readonly PreviewStates[]> {
  const { limits } = facts.options;
  const { graphs, untold } = yield* findStates({ ...facts, limits });
  const told = graphs.map((graph) => buildGraph(facts, graph));
  const refused = untold.map(({ registers, why }): PreviewStates => {
    const [register] = registers.slice(-1);
    return {
      registers: registers.map((id) => registerName(facts, id)),
      width: registers.reduce((sum, id) => sum + facts.netlist.registers[id].width, 0),
      ...nothingTold,
      why: whyWords(why),
      span: facts.places.spanOf(facts.netlist.registers[register].place),
    };
  });
  return inOrder([...told, ...refused], ({ registers }) => registers[0]);
}

const nothingTold = {
  method: null,
  sure: '',
  start: null,
  states: [],
  statesTotal: 0,
  unused: [],
  unusedTotal: null,
  words: '',
  sequence: '',
  count: null,
} as const;

function buildGraph(facts: DesignFacts, graph: StateGraph): PreviewStates {
  const { netlist, places, prediction } = facts;
  const { count, method, registers, states, unused, width } = graph;
  const names = registers.length === 1 ? stateNames(facts, registers[0]) : new Map<bigint, string>();
  const nameOf = (value: bigint) => names.get(value) ?? String(value);
  const next = (steps: StateGraph['states'][number]['next']) =>
    // What a state does in any case asks for no condition.
    steps.map(({ to, when }) => ({
      to: String(to),
      when: steps.length === 1 ? '' : whenWords(when.map((all) => conditionStories(facts, all))),
    }));
  const listed = (unused ?? []).map((fate) => unusedOf(fate, names));
  const story = { method, width, statesTotal: states.length };
  const fates = unused?.map(({ fate, value, within }) => ({ name: nameOf(value), fate, within })) ?? null;
  return {
    registers: registers.map((id) => registerName(facts, id)),
    width,
    method,
    sure: methodWords[method],
    start: String(graph.start),
    states: shortened(
      facts,
      states.map((state) => ({
        value: String(state.value),
        name: names.get(state.value) ?? null,
        next: next(state.next),
      })),
    ),
    statesTotal: states.length,
    unused: shortened(facts, listed),
    unusedTotal: unused === null ? null : unused.length,
    words: statesWords({ ...story, unused: fates }),
    sequence: count === null ? '' : sequenceWords(prediction.counts[count]),
    count,
    why: null,
    span: places.spanOf(netlist.registers[registers[registers.length - 1]].place),
  };
}

function unusedOf(
  { fate, to, value, within }: Fate,
  names: ReadonlyMap<bigint, string>,
): PreviewStates['unused'][number] {
  return {
    value: String(value),
    name: names.get(value) ?? null,
    fate,
    within,
    to: to.map(String),
    words: fateWord({ fate, within }),
  };
}

/** By name where there is one, else as written; the bits of a whole register as the value that they are. */
function conditionStories(facts: DesignFacts, all: readonly Condition[]): readonly ConditionStory[] {
  const { names, netlist, places } = facts;
  const textOf = (bit: Bit) => names.nameOf(bit) ?? places.textOf(netlist.places[netlist.nodes.place[bit.node]]);
  const nodes = [...new Set(all.map(({ bit }) => bit.node))];
  return nodes.flatMap((node) => {
    const own = all.filter(({ bit }) => bit.node === node);
    const isWhole =
      netlist.nodes.op[node] === Op.register && own.length > 1 && own.length === netlist.nodes.width[node];
    if (isWhole) return [{ text: `${valueOfRegister(facts, node, own)}`, holds: true }];
    return own.map(({ bit, level }) => ({ text: textOf(bit), holds: level === 1 }));
  });
}

function valueOfRegister(facts: DesignFacts, node: NodeId, all: readonly Condition[]): string {
  const id = facts.netlist.nodes.aux[node] as RegisterId;
  const value = all.reduce((sum, { bit, level }) => sum + (BigInt(level) << BigInt(bit.bit)), 0n);
  return `${registerName(facts, id).replace(/\[-?\d+:-?\d+\]$/, '')} == ${stateNames(facts, id).get(value) ?? value}`;
}

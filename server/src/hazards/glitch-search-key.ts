// What a search for the glitches of one group hangs on, as text in which variables are numbered by rank: equal texts,
// equal findings but for names. So what was found before an edit holds after it wherever the text is the same, and need
// not be searched again. Holds for states followed in lockstep alone: what is walked hears more of the netlist.

import type { DirectionalDelay } from '../delays/delay-set';
import type { Candidate } from './glitch-candidates';
import { type Departure, departureOf } from './glitch-follow';
import { coneOfLiterals, GateKind, gateOf, type Literal } from './glitch-gates';
import type { Group } from './glitch-groups';
import { coneOf, type Part, type Workshop } from './glitch-parts';
import { variablesOfCone } from './glitch-gates';
import { registerBitsOf, sourcesOf } from './glitch-sources';
import type { StatesContext } from './glitch-states';
import { worldActors } from './glitch-world';

export interface SearchKey {
  readonly text: string;
  /** Variables by rank. */
  readonly variables: readonly number[];
}

export function searchKeyOf(context: StatesContext, group: Group): SearchKey {
  const { workshop, limits } = context;
  const extents = [group.whole, group.nearest, group.nearer];
  const departures = extents.map((extent) => (extent === null ? null : departureOf(context, group, extent)));
  const told = new Set(group.candidates.flatMap(({ scene }) => [...worldActors(scene), ...sourcesOf(scene)]));
  for (const extent of extents) for (const variable of extent?.state ?? []) told.add(variable);
  const others = extents.flatMap((extent) => extent?.held ?? []);
  const literals = literalsToTell(group, told);
  const cone = coneOfLiterals(workshop.logic.gates, literals);
  const all = new Set([...told, ...others, ...group.recorded, ...variablesOfCone(workshop.logic.gates, cone)]);
  const variables = [...all].sort((left, right) => left - right);
  const rankOf = new Map(variables.map((variable, rank) => [variable, rank]));
  const ranks = (list: readonly number[]): string => list.map((variable) => rankOf.get(variable)).join();
  const graph = graphText(workshop, cone, rankOf);
  const texts = [
    `${limits.states} ${graph.text}`,
    ...variables.map((variable) => variableText(workshop, group, variable, told.has(variable), graph.placed)),
    ...group.candidates.map((candidate) => candidateText(candidate, ranks, graph.placed)),
    ranks(group.recorded),
    ...departures.map((departure) => (departure === null ? '-' : departureText(departure, ranks))),
  ];
  return { text: texts.join('\n'), variables };
}

/** Every literal of what is told; what cells and opaque operators hear is told too. */
function literalsToTell({ candidates, part }: Group, told: Set<number>): readonly Literal[] {
  const literals: Literal[] = candidates.map(({ scene }) => scene.target);
  const { workshop } = candidates[0].scene;
  const tell = (literal: Literal): void => {
    literals.push(literal);
    for (const variable of variablesOfCone(workshop.logic.gates, coneOf(workshop, literal))) {
      const { kind } = part(variable);
      if (kind === 'cell' || kind === 'opaque') told.add(variable);
    }
  };
  for (const literal of [...literals]) tell(literal);
  for (const variable of told) for (const literal of literalsOf(part(variable))) tell(literal);
  return literals;
}

function literalsOf(part: Part): readonly Literal[] {
  switch (part.kind) {
    case 'cell':
      return [part.follows];
    case 'opaque':
      return part.hears;
    case 'register':
    case 'latch':
      return [part.trigger, part.data, ...part.controls.flatMap(({ active, value }) => [active, value])];
    default:
      return [];
  }
}

type Placed = (literal: Literal) => number;

function graphText(
  { logic }: Workshop,
  cone: readonly number[],
  rankOf: ReadonlyMap<number, number>,
): { readonly text: string; readonly placed: Placed } {
  const { a, b, c, kind } = logic.gates;
  const placeOf = new Map(cone.map((gate, place) => [gate, place]));
  const placed = (literal: Literal): number => 2 * (placeOf.get(gateOf(literal)) ?? -1) + (literal & 1);
  const gates = cone.map((gate) => {
    switch (kind[gate]) {
      case GateKind.variable:
        return `v${rankOf.get(a[gate])}`;
      case GateKind.and:
        return `${placed(a[gate])}&${placed(b[gate])}`;
      case GateKind.choose:
        return `${placed(a[gate])}?${placed(b[gate])}:${placed(c[gate])}`;
      case GateKind.mark:
        return `m${placed(a[gate])}`;
      default:
        return `k${kind[gate]}`;
    }
  });
  return { text: gates.join(' '), placed };
}

function variableText({ logic }: Workshop, { part }: Group, variable: number, isTold: boolean, placed: Placed): string {
  const own = part(variable);
  const kinds = `${logic.variables[variable].kind} ${own.kind}`;
  if (!isTold) return kinds;
  const literals = literalsOf(own).map(placed).join();
  const delays = own.kind === 'cell' ? [own.delay] : 'clear' in own ? [own.delay, own.clear] : [];
  return `${kinds} ${literals} ${delays.map(delayText).join(' ')}`;
}

function candidateText({ ends, scene }: Candidate, ranks: (list: readonly number[]) => string, placed: Placed): string {
  const bits = registerBitsOf(scene).map(({ variable }) => variable);
  const reset = ends.some(({ kind }) => kind === 'reset') ? 'reset' : '';
  const order = `${ranks(scene.observed)}; ${ranks(scene.actors)} ${scene.isKnotted}`;
  return `${placed(scene.target)} ${delayText(scene.inertia)} ${order}; ${ranks(bits)} ${reset}`;
}

function departureText({ journey, limits }: Departure, ranks: (list: readonly number[]) => string): string {
  const { edges, extent, inputs, levels, restLevel, states, group } = journey;
  const levelsOf = (list: readonly number[]) => list.map((variable) => levels[variable]).join('');
  const choices = inputs.choices.map(({ kind, usual }) => `${kind[0]}${usual}`).join('');
  return [
    `${edges} ${restLevel} ${limits.join()} ${states.length} ${inputs.settings} ${inputs.foreign} ${inputs.cut}`,
    `${ranks(extent.state)}; ${ranks(extent.held)}; ${ranks(extent.cut)}`,
    `${levelsOf(extent.state)} ${levelsOf(extent.held)} ${levelsOf(group.recorded)}`,
    `${ranks(inputs.choices.map(({ variable }) => variable))} ${choices}`,
    states.length > 1 ? states.map((state) => state.join('')).join() : '',
  ].join('\n');
}

function delayText({ rise, fall }: DirectionalDelay): string {
  return [rise.min, rise.typ, rise.max, fall.min, fall.typ, fall.max].join();
}

// What a verdict hangs on, but for the levels: a scene's function, what triggers its actors and after what delays, as
// text in which variables are numbered by rank. Scenes of one shape are the same but for names, so that the bits of a
// vector and the instances of a module need judging once. Left out: what registers sample; see `Judgement.hangsOn`.

import type { DirectionalDelay } from '../delays/delay-set';
import { gateOf, GateKind, type Literal } from './glitch-gates';
import { coneOf, type Part, type Workshop } from './glitch-parts';
import type { Scene } from './glitch-scene';

/** Equal texts: every transition with equal levels of the actors, in their order, has the same verdict. */
export function shapeOf(scene: Scene): string {
  const { workshop, part, actors, observed, target, inertia, isKnotted } = scene;
  const ranks = new Map([...actors].sort((left, right) => left - right).map((variable, rank) => [variable, rank]));
  const rankOf = (variable: number): number => ranks.get(variable) ?? -variable - 1;
  const literal = (one: Literal): string => literalText(workshop, rankOf, one);
  const texts = actors.map((variable) => `${rankOf(variable)} ${partText(part(variable), literal)}`);
  const heard = observed.map(rankOf).join();
  return [isKnotted ? 'knotted' : '', delayText(inertia), heard, literal(target), ...texts].join('\n');
}

/** Variables that are no actors keep numbers of their own, so that nothing else looks like them. */
function literalText(workshop: Workshop, rankOf: (variable: number) => number, literal: Literal): string {
  const { gates } = workshop.logic;
  const cone = coneOf(workshop, literal);
  const placeOf = new Map(cone.map((gate, place) => [gate, place]));
  const placed = (operand: Literal): number => 2 * (placeOf.get(gateOf(operand)) ?? 0) + (operand & 1);
  const texts = cone.map((gate) => {
    const [kind, a, b, c] = [gates.kind[gate], gates.a[gate], gates.b[gate], gates.c[gate]];
    switch (kind) {
      case GateKind.variable:
        return `v${rankOf(a)}`;
      case GateKind.and:
        return `${placed(a)}&${placed(b)}`;
      case GateKind.choose:
        return `${placed(a)}?${placed(b)}:${placed(c)}`;
      case GateKind.mark:
        return `m${placed(a)}`;
      default:
        return `k${kind}`;
    }
  });
  return `${texts.join(' ')}=${literal & 1}`;
}

function partText(part: Part, literal: (one: Literal) => string): string {
  switch (part.kind) {
    case 'cell':
      return `cell ${literal(part.follows)} ${delayText(part.delay)}`;
    case 'opaque':
      return `opaque ${part.hears.map(literal).join('; ')}`;
    case 'register':
    case 'latch': {
      const controls = part.controls.map(({ active }) => literal(active)).join('; ');
      const data = part.kind === 'latch' ? literal(part.data) : '';
      return `${part.kind} ${literal(part.trigger)}; ${controls}; ${data} ${delayText(part.delay)}`;
    }
    default:
      return part.kind;
  }
}

function delayText({ rise, fall }: DirectionalDelay): string {
  return [rise.min, rise.typ, rise.max, fall.min, fall.typ, fall.max].join();
}

// `reset-release` of one clock: the reset acts at once as before and is let go by two flip-flops of the clock, so that all
// that it resets leave at one edge.

import type { Place } from '../text/place';
import { inserting, replacing, type UnitEdit } from './edits';
import type { CureContext, CureRule } from './cure';
import { freeName, indentationAt, isPlainName, lineEndOf, moduleAt } from './text';
import { nextToken, wordOf } from '../syntax/tokens';

export const resetInStep: CureRule = {
  finding: 'reset-release',
  propose(context, finding) {
    const { reading } = context;
    const module = moduleAt(reading, finding.place);
    const [reset] = finding.signals;
    const domains = finding.facts.domains as readonly string[];
    const edge = edgeOf(context, domains[0]);
    if (module === null || domains.length !== 1 || edge === null || !isPlainName(reset) || !isPlainName(domains[0]))
      return null;
    const [first] = module.items.filter(({ at }) => at.start > finding.place.end);
    if (first === undefined) return null;
    const { text } = reading.units[finding.place.unit];
    const isLow = finding.facts.active === 'low';
    const [steps, step] = [freeName(text, `${reset}_steps`), freeName(text, `${reset}_in_step`)];
    const lines = [
      `reg [1:0] ${steps};`,
      `always @(${edge} ${domains[0]} or ${isLow ? 'negedge' : 'posedge'} ${reset})`,
      `  if (${isLow ? '!' : ''}${reset}) ${steps} <= ${isLow ? "2'b00" : "2'b11"};`,
      `  else ${steps} <= {${steps}[0], 1'b${isLow ? 1 : 0}};`,
      `wire ${step} = ${steps}[1];`,
    ];
    const break_ = `${lineEndOf(text)}${indentationAt(text, first.at.start)}`;
    const uses = usesOf(text, reset, { unit: finding.place.unit, start: first.at.start, end: module.at.end } as Place);
    return {
      title: `release ${reset} through two flip-flops of ${domains[0]}`,
      edits: [
        inserting(finding.place.unit, first.at.start, `${lines.join(break_)}${break_}`),
        ...uses.map((place): UnitEdit => replacing(place, step)),
      ],
      promise: { kind: 'none' },
      differs: [`what ${reset} resets is let go at the second edge of ${domains[0]} after ${reset}, all at one edge`],
    };
  },
};

/** The edge that all registers of the domain act on; null where they act on both. */
function edgeOf(
  { facts: { network, netlist } }: CureContext,
  domain: string | undefined,
): 'posedge' | 'negedge' | null {
  const members = network.domains.find(({ name }) => name === domain)?.registers ?? [];
  const edges = new Set(members.map((id) => netlist.registers[id].edge));
  if (edges.size !== 1) return null;
  return edges.has('rising') ? 'posedge' : 'negedge';
}

/** Where the name stands, but for names of ports in connections (`.rst(rst)`: the second alone). */
function usesOf(text: string, name: string, { end, start, unit }: Place): readonly Place[] {
  const found: Place[] = [];
  let before = '';
  for (
    let token = nextToken(text, start);
    token.kind !== 'end' && token.start < end;
    token = nextToken(text, token.end)
  ) {
    const word = wordOf(text, token);
    if (token.kind === 'name' && word === name && before !== '.') {
      found.push({ unit, start: token.start, end: token.end } as Place);
    }
    before = word;
  }
  return found;
}

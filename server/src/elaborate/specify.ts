// Specify blocks of a module (IEEE 1364-2005 14, 15): every path from one input to one output with its twelve delays, every
// timing check with its events and limits. What follows for registers and outputs is told once instances are linked.

import { sliceOf } from '../netlist/node-makers';
import type { Expression, Item, SpecifyPart } from '../syntax/tables';
import type { ModuleDraft, PathDraft } from './module-draft';
import type { Scope } from './scope';
import { readCheck } from './specify-checks';
import { conditionOf, lowered, sayUnread, surroundings } from './specify-terms';
import { specifiedTriple, twelveDelays } from './specify-times';
import { targetOf } from './targets';

type SpecifyItem = Extract<Item, { kind: 'specify' }>;
type Path = Extract<SpecifyPart, { kind: 'path' }>;

export function readSpecify(draft: ModuleDraft, scope: Scope, { parts }: SpecifyItem): void {
  for (const part of parts) {
    switch (part.kind) {
      case 'path':
        readPath(draft, scope, part);
        break;
      case 'check':
        readCheck(draft, scope, part);
        break;
      case 'pulse-limits':
        readPulseLimits(draft, scope, part);
        break;
      case 'pulse-style':
        readPulseStyle(draft, scope, part);
    }
  }
}

function readPath(draft: ModuleDraft, scope: Scope, path: Path): void {
  const listed = path.delays.map((delay) => specifiedTriple(draft, scope, delay));
  if (listed.includes(null)) return;
  const triples = listed.filter((triple) => triple !== null);
  if (triples.some(({ min }) => min < 0)) {
    draft.log.add('negative-delay', { text: draft.source.textOf(path.at) }, draft.source.place(path.at));
    return;
  }
  const delays = twelveDelays(triples);
  if (delays === null) {
    sayUnread(draft, path.at, `path with ${triples.length} delays`);
    return;
  }
  const condition = path.condition === null ? null : conditionOf(draft, scope, path.condition);
  const edge = path.edge === 'edge' ? null : path.edge;
  for (const from of path.from) {
    for (const to of path.to) addPath(draft, scope, { ...path, edge, condition, delays }, { from, to });
  }
}

function addPath(
  draft: ModuleDraft,
  scope: Scope,
  path: Pick<PathDraft, 'full' | 'edge' | 'guard' | 'condition' | 'delays' | 'at'>,
  { from, to }: { readonly from: Expression; readonly to: Expression },
): void {
  const node = lowered(draft, scope, from);
  const target = targetOf(surroundings(draft, scope), to);
  if (target.width === null) return;
  if (!path.full && draft.nodes.nodes.width[node] !== target.width) {
    sayUnread(draft, path.at, 'parallel path between ends of different widths');
    return;
  }
  const { full, edge, guard, condition, delays, at } = path;
  const names = { from: draft.source.textOf(from.at), to: draft.source.textOf(to.at) };
  let above = target.width;
  for (const part of target.parts) {
    if (part.kind !== 'slice') continue;
    above -= part.width;
    const piece = full ? node : sliceOf(draft.nodes, node, above, part.width, draft.source.place(from.at));
    const place = { signal: part.signal.index, low: part.low, width: part.width };
    draft.specified.paths.push({ from: piece, to: place, full, edge, guard, condition, delays, names, at });
  }
}

function readPulseLimits(
  draft: ModuleDraft,
  scope: Scope,
  { at, from, limits, to }: Extract<SpecifyPart, { kind: 'pulse-limits' }>,
): void {
  const [reject, error = reject] = limits.map((limit) => specifiedTriple(draft, scope, limit));
  if (reject === null || error === null) return;
  if (reject.max > error.min && reject.typ > error.typ) {
    sayUnread(draft, at, 'pulse limits of which the first is the larger');
    return;
  }
  draft.specified.pulses.push({ between: from === null || to === null ? null : { from, to }, reject, error });
}

function readPulseStyle(
  draft: ModuleDraft,
  scope: Scope,
  { at, outputs, style }: Extract<SpecifyPart, { kind: 'pulse-style' }>,
): void {
  if (style === 'showcancelled') sayUnread(draft, at, style);
  if (style !== 'ondetect') return;
  for (const output of outputs) {
    for (const part of targetOf(surroundings(draft, scope), output).parts)
      if (part.kind === 'slice') draft.specified.onDetect.add(part.signal.index);
  }
}

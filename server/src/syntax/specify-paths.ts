// One path of a specify block (IEEE 1364-2005 14.2): simple, edge-sensitive, state-dependent. Its polarity is read and not
// kept: what the output does follows from the module's own logic (14.2.6 gives it to timing analysis only), and so does
// the data behind `+:`.

import type { SpecifyPart } from './tables';
import {
  advance,
  misfit,
  placeOf,
  type Read,
  readDelays,
  readList,
  readTerminal,
  readWords,
  take,
  type Words,
  word,
} from './word-expressions';

type Path = Extract<SpecifyPart, { kind: 'path' }>;

export function readPath(words: Words): Read<SpecifyPart> {
  const { start } = words.token;
  const guard = readGuard(words);
  if (guard.kind === 'misfit') return guard;
  if (!take(words, '(')) return misfit(words);
  const edge = edges.get(word(words)) ?? null;
  if (edge !== null) advance(words);
  const from = readList(words, readTerminal);
  if (from.kind === 'misfit') return from;
  const arrow = readArrow(words);
  if (arrow.kind === 'misfit') return arrow;
  const to = readDestinations(words);
  if (to.kind === 'misfit') return to;
  if (!take(words, ')') || !take(words, '=')) return misfit(words);
  const delays = readDelays(words);
  if (delays.kind === 'misfit') return delays;
  const at = placeOf({ start, end: words.token.start });
  const path: Path = {
    kind: 'path',
    at,
    ...guard.value,
    edge,
    full: arrow.value,
    from: from.value,
    to: to.value,
    delays: delays.value,
  };
  return { kind: 'read', value: path };
}

function readGuard(words: Words): Read<Pick<Path, 'guard' | 'condition'>> {
  if (take(words, 'ifnone')) return { kind: 'read', value: { guard: 'ifnone', condition: null } };
  if (!take(words, 'if')) return { kind: 'read', value: { guard: 'none', condition: null } };
  if (!take(words, '(')) return misfit(words);
  const condition = readWords(words);
  if (condition.kind === 'misfit') return condition;
  if (!take(words, ')')) return misfit(words);
  return { kind: 'read', value: { guard: 'if', condition: condition.value } };
}

/** `=>` or `*>`, with a polarity before it: `+=>` falls into `+=` and `>`. True for a full connection. */
function readArrow(words: Words): Read<boolean> {
  if (take(words, '+=') || take(words, '-=')) return take(words, '>') ? { kind: 'read', value: false } : misfit(words);
  if (word(words) === '+' || word(words) === '-') advance(words);
  if (take(words, '=>')) return { kind: 'read', value: false };
  return take(words, '*>') ? { kind: 'read', value: true } : misfit(words);
}

/** Outputs, or (outputs +: data) behind an edge. */
function readDestinations(words: Words): Read<Path['to']> {
  if (!take(words, '(')) return readList(words, readTerminal);
  const to = readList(words, readTerminal);
  if (to.kind === 'misfit') return to;
  if (take(words, '+:') || take(words, '-:') || take(words, ':')) {
    const data = readWords(words);
    if (data.kind === 'misfit') return data;
  }
  return take(words, ')') ? to : misfit(words);
}

const edges: ReadonlyMap<string, 'posedge' | 'negedge' | 'edge'> = new Map([
  ['posedge', 'posedge'],
  ['negedge', 'negedge'],
  ['edge', 'edge'],
]);

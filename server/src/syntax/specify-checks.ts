// One timing check of a specify block (IEEE 1364-2005 15): its name and its arguments in order, events with edge and
// condition. Which argument means what is told where the check is used.

import type { CheckArgument, SpecifyPart } from './tables';
import { advance, misfit, placeOf, type Read, readTriple, readWords, take, type Words, word } from './word-expressions';

export function readCheck(words: Words): Read<SpecifyPart> {
  const { start } = words.token;
  const check = word(words).slice(1);
  advance(words);
  if (!take(words, '(')) return misfit(words);
  const args: (CheckArgument | null)[] = [];
  do {
    if (word(words) === ',' || word(words) === ')') {
      args.push(null);
      continue;
    }
    const argument = readArgument(words);
    if (argument.kind === 'misfit') return argument;
    args.push(argument.value);
  } while (take(words, ','));
  const { end } = words.token;
  if (!take(words, ')')) return misfit(words);
  return { kind: 'read', value: { kind: 'check', at: placeOf({ start, end }), check, args } };
}

function readArgument(words: Words): Read<CheckArgument> {
  const { start } = words.token;
  const edge = edges.get(word(words)) ?? null;
  if (edge !== null) advance(words);
  const listed = edge === 'edge' && word(words) === '[' ? readEdges(words) : null;
  if (listed?.kind === 'misfit') return listed;
  const expression = edge === null ? readTriple(words) : readWords(words);
  if (expression.kind === 'misfit') return expression;
  const condition = take(words, '&&&') ? readWords(words) : null;
  if (condition?.kind === 'misfit') return condition;
  const at = placeOf({ start, end: (condition ?? expression).value.at.end });
  const found: CheckArgument = {
    at,
    edge,
    edges: listed?.value ?? [],
    expression: expression.value,
    condition: condition?.value ?? null,
  };
  return { kind: 'read', value: found };
}

/** `[01, 0x, z1]`: two levels each, z read as x (15.4). */
function readEdges(words: Words): Read<readonly string[]> {
  const open = advance(words);
  while (words.token.kind !== 'end' && word(words) !== ']') advance(words);
  const close = words.token;
  if (!take(words, ']')) return misfit(words);
  const written = words.text.slice(open.end, close.start).split(',');
  const listed = written.map((pair) => pair.trim().toLowerCase().replaceAll('z', 'x'));
  return listed.every((pair) => edgePair.test(pair)) ? { kind: 'read', value: listed } : misfit(words);
}

const edgePair = /^(?:01|10|0x|1x|x0|x1)$/;

const edges: ReadonlyMap<string, 'posedge' | 'negedge' | 'edge'> = new Map([
  ['posedge', 'posedge'],
  ['negedge', 'negedge'],
  ['edge', 'edge'],
]);

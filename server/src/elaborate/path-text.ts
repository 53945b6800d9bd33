// Conditions on the way to a statement, as text and as one node. Text is as written; a branch not taken reads
// `!(condition)`, several conditions are joined by ` && `.

import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import type { Place } from '../text/place';
import { both } from './conditions';
import type { Path } from './module-draft';

/** `around`: conditions from there outward are left out. */
export function pathText(path: Path, around: Path | null = null): string {
  const texts: string[] = [];
  for (let at: Path | null = path; at !== null && at !== around; at = at.outer) texts.unshift(at.text());
  const told = texts.filter((text, index) => text !== texts[index - 1]);
  return told.length === 1 ? told[0] : told.map(asOperand).join(' && ');
}

export function pathNode(path: Path, nodes: NodeBuilder, place: Place): NodeId {
  let node = path.node();
  for (let at = path.outer; at !== null; at = at.outer) node = both(nodes, at.node(), node, place);
  return node;
}

/** Whether a path leads through another one; every path leads through none at all. */
export function leadsThrough(path: Path, around: Path | null): boolean {
  let at: Path | null = path;
  while (at !== null && at !== around) at = at.outer;
  return at === around;
}

export function negatedText(text: string): string {
  return `!(${text})`;
}

/** In brackets where `&&` would bind tighter than what is written. */
function asOperand(text: string): string {
  return /\|\||\?/.test(outsideBrackets(text)) ? `(${text})` : text;
}

function outsideBrackets(text: string): string {
  let depth = 0;
  let outside = '';
  for (const character of text) {
    if (character === '(' || character === '[' || character === '{') depth++;
    if (depth === 0) outside += character;
    if (character === ')' || character === ']' || character === '}') depth--;
  }
  return outside;
}

// Conditions on the way to a statement, as text and as one node. Text is as written; a branch not taken reads
// `!(condition)`, several conditions are joined by ` && `.

import type { NodeId } from '../netlist/netlist';
import type { NodeBuilder } from '../netlist/node-builder';
import type { Place } from '../text/place';
import { both } from './conditions';
import type { Path } from './module-draft';

export function pathText(path: Path): string {
  const texts: string[] = [];
  for (let at: Path | null = path; at !== null; at = at.outer) texts.unshift(at.text());
  return texts.length === 1 ? texts[0] : texts.map(asOperand).join(' && ');
}

export function pathNode(path: Path, nodes: NodeBuilder, place: Place): NodeId {
  let node = path.node();
  for (let at = path.outer; at !== null; at = at.outer) node = both(nodes, at.node(), node, place);
  return node;
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

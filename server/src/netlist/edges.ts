// Which change of one bit is an edge: once as IEEE 1364-2005 says it for a program (Table 9-1), once as a flip-flop
// meets it (definition 16 of the project: an edge from or to an unknown level is a perhaps).

import type { Digit } from './four-state';

/** IEEE 1364-2005 9.7.2, Table 9-1. On a vector only the least significant bit counts: the caller passes that digit. */
export function edgeOf(from: Digit, to: Digit): 'posedge' | 'negedge' | null {
  if (from === to) return null;
  if (to === '1' || from === '0') return 'posedge';
  if (to === '0' || from === '1') return 'negedge';
  return null;
}

export type HardwareEdge = 'rising' | 'falling' | 'perhaps-rising' | 'perhaps-falling';

/**
 * The edge as a register meets it. Between known levels it is certain. From or to x or z it is a perhaps edge, which
 * gives merge(old, sampled). x to z and back is no change of level: both stand for "not known".
 */
export function hardwareEdge(from: Digit, to: Digit): HardwareEdge | null {
  const edge = edgeOf(from, to);
  if (edge === null) return null;
  const certain = isKnown(from) && isKnown(to);
  if (edge === 'posedge') return certain ? 'rising' : 'perhaps-rising';
  return certain ? 'falling' : 'perhaps-falling';
}

function isKnown(digit: Digit): boolean {
  return digit === '0' || digit === '1';
}

// A graph whose vertices are bits and whose edges lead from a bit to the bits it hears, kept to a given set of bits.

import { bitKey } from './bit-key';
import type { Bit } from './netlist';
import { type Graph, visitStrongComponents } from './strong-components';
import type { BitVisitor } from './trace';

export interface BitGraph extends Graph {
  /** The bit of each vertex. */
  readonly bits: readonly Bit[];
}

/** `hear` calls its visitor with every bit that one bit hears; those outside the set are left out. */
export function createBitGraph(bits: readonly Bit[], hear: (bit: Bit, visit: BitVisitor) => void): BitGraph {
  const vertexOf = new Map(bits.map((bit, vertex) => [bitKey(bit), vertex]));
  const first = new Uint32Array(bits.length);
  const degree = new Uint32Array(bits.length);
  const target: number[] = [];
  bits.forEach((bit, vertex) => {
    first[vertex] = target.length;
    hear(bit, (node, index) => {
      const heard = vertexOf.get(bitKey({ node, bit: index }));
      if (heard !== undefined) target.push(heard);
    });
    degree[vertex] = target.length - first[vertex];
  });
  return { bits, count: bits.length, first, degree, target: Uint32Array.from(target) };
}

/** The sets of bits that hear each other, or one that hears itself; each in order of vertex, so are the sets. */
export function loopsOf(graph: BitGraph): Bit[][] {
  const loops: number[][] = [];
  visitStrongComponents(graph, (component) => {
    if (component.length > 1 || hearsItself(graph, component[0])) loops.push(ascending(component));
  });
  loops.sort((left, right) => left[0] - right[0]);
  return loops.map((loop) => loop.map((vertex) => graph.bits[vertex]));
}

function hearsItself(graph: BitGraph, vertex: number): boolean {
  const end = graph.first[vertex] + graph.degree[vertex];
  return graph.target.subarray(graph.first[vertex], end).includes(vertex);
}

function ascending(vertices: readonly number[]): number[] {
  return [...vertices].sort((left, right) => left - right);
}

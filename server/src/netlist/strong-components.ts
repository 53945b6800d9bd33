// Sets of vertices that reach each other, in one pass over a graph of numbers (Tarjan, SIAM J. Computing 1(2), 1972),
// with its own stack: a graph may be a chain of a hundred thousand vertices.

/** Vertex v has edges to target[first[v]] … target[first[v] + degree[v] - 1]. */
export interface Graph {
  readonly count: number;
  readonly first: Uint32Array;
  readonly degree: Uint32Array;
  readonly target: Uint32Array;
}

/**
 * Calls `visit` with each component, every component after all that it reaches. The list is reused between calls.
 */
export function visitStrongComponents(graph: Graph, visit: (component: readonly number[]) => void): void {
  const { count, first, degree, target } = graph;
  /** Order of discovery from 1; 0 = not seen yet, `done` = in a component already. */
  const found = new Uint32Array(count);
  const low = new Uint32Array(count);
  const nextEdge = new Uint32Array(count);
  const path: number[] = [];
  const open: number[] = [];
  const component: number[] = [];
  let discovered = 0;

  function enter(vertex: number): void {
    discovered += 1;
    found[vertex] = discovered;
    low[vertex] = discovered;
    path.push(vertex);
    open.push(vertex);
  }

  function leave(vertex: number): void {
    path.pop();
    const parent = path[path.length - 1];
    if (parent !== undefined && low[vertex] < low[parent]) low[parent] = low[vertex];
    if (low[vertex] !== found[vertex]) return;
    component.length = 0;
    for (let member = open.pop(); member !== undefined; member = open.pop()) {
      found[member] = done;
      component.push(member);
      if (member === vertex) break;
    }
    visit(component);
  }

  for (let root = 0; root < count; root++) {
    if (found[root] === 0) enter(root);
    while (path.length > 0) {
      const vertex = path[path.length - 1];
      if (nextEdge[vertex] === degree[vertex]) {
        leave(vertex);
        continue;
      }
      const reached = target[first[vertex] + nextEdge[vertex]];
      nextEdge[vertex] += 1;
      if (found[reached] === 0) enter(reached);
      else if (found[reached] < low[vertex]) low[vertex] = found[reached];
    }
  }
}

/** Above every order of discovery, so that a finished vertex never lowers anything. */
const done = 0xffffffff;

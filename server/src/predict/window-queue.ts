// Elements waiting for their turn, lowest rank first, each once per root edge: a binary heap of ranks.

export interface RankQueue {
  /** Does nothing for what has been added before. */
  add(element: number): void;
  /** -1 where none waits. */
  take(): number;
}

export function createRankQueue(rank: Uint32Array): RankQueue {
  const added = new Set<number>();
  const heap: number[] = [];
  const swap = (left: number, right: number): void => {
    const kept = heap[left];
    heap[left] = heap[right];
    heap[right] = kept;
  };
  return {
    add(element) {
      if (added.has(element)) return;
      added.add(element);
      heap.push(element);
      for (let at = heap.length - 1; at > 0; ) {
        const above = (at - 1) >>> 1;
        if (rank[heap[above]] <= rank[heap[at]]) break;
        swap(above, at);
        at = above;
      }
    },
    take() {
      if (heap.length === 0) return -1;
      const [found] = heap;
      const last = heap.pop() as number;
      if (heap.length > 0) heap[0] = last;
      for (let at = 0; ; ) {
        const left = 2 * at + 1;
        const right = left + 1;
        let least = at;
        if (left < heap.length && rank[heap[left]] < rank[heap[least]]) least = left;
        if (right < heap.length && rank[heap[right]] < rank[heap[least]]) least = right;
        if (least === at) return found;
        swap(least, at);
        at = least;
      }
    },
  };
}

// Words and pairs of parts, each kept once, as numbers. A part is a word at the lowest level of a tree and a pair of parts
// above it: which of the two, its level says. Knows nothing of indices. A branch knows all parts that there were when it
// began by the same numbers, and keeps its own beside them: what it costs is what it adds.

import { type Bits, fromLimbs, limbCount } from './four-state';

/** A word or a pair, by its level. */
export type Part = number;

export interface MemoryTree {
  wordOf(value: Bits): Part;
  bitsOf(word: Part): Bits;
  pair(left: Part, right: Part): Part;
  child(pair: Part, side: 0 | 1): Part;
  /** Whether there is a part of this number at this level. */
  has(part: Part, level: number): boolean;
  /** A part of this level in which every word is the same. */
  uniform(level: number, word: Part): Part;
  /** Words or pairs, whichever are more, that were made here and not in what this branched from. */
  ownCount(): number;
  branch(): MemoryTree;
}

/** `width`: bits of one word. */
export function createMemoryTree(width: number, from?: { readonly words: Rows; readonly pairs: Rows }): MemoryTree {
  const limbs = limbCount(width);
  const words = from?.words ?? createRows(2 * limbs, null);
  const pairs = from?.pairs ?? createRows(2, null);
  const word = new Uint32Array(2 * limbs);
  const both = new Uint32Array(2);

  const tree: MemoryTree = {
    wordOf(value) {
      word.set(value.a, 0);
      word.set(value.b, limbs);
      return words.indexOf(word);
    },
    bitsOf(index) {
      const cells = words.row(index);
      return fromLimbs(width, cells.slice(0, limbs), cells.slice(limbs));
    },
    pair(left, right) {
      both[0] = left;
      both[1] = right;
      return pairs.indexOf(both);
    },
    has: (part, level) => part < (level === 0 ? words : pairs).count(),
    child: (pair, side) => pairs.cell(pair, side),
    uniform(level, of) {
      let part = of;
      for (let height = 0; height < level; height++) part = tree.pair(part, part);
      return part;
    },
    ownCount: () => Math.max(words.ownCount(), pairs.ownCount()),
    branch: () => createMemoryTree(width, { words: createRows(2 * limbs, words), pairs: createRows(2, pairs) }),
  };
  return tree;
}

interface Rows {
  count(): number;
  ownCount(): number;
  cell(index: number, place: number): number;
  /** To be read at once: it is a window on what may be replaced. */
  row(index: number): Uint32Array;
  /** The row with these cells; made where there is none. */
  indexOf(row: Uint32Array): number;
  /** As `indexOf`, among the first `count` rows alone; -1 where there is none. */
  find(row: Uint32Array, hash: number, count: number): number;
}

/** Rows of `size` cells. `base` may grow on: what it gets after now is not seen here. */
function createRows(size: number, base: Rows | null): Rows {
  const first = base?.count() ?? 0;
  let cells = new Uint32Array(16 * size);
  let slots = new Int32Array(64);
  let own = 0;

  function isAt(row: Uint32Array, place: number): boolean {
    for (let cell = 0; cell < size; cell++) if (cells[place * size + cell] !== row[cell]) return false;
    return true;
  }

  /** The slot that holds the row, or the empty one where it would stand. */
  function slotOf(row: Uint32Array, hash: number): number {
    let slot = hash & (slots.length - 1);
    while (slots[slot] !== 0 && !isAt(row, slots[slot] - 1)) slot = (slot + 1) & (slots.length - 1);
    return slot;
  }

  function add(row: Uint32Array, slot: number): void {
    if ((own + 1) * size > cells.length) {
      const longer = new Uint32Array(cells.length * 2);
      longer.set(cells);
      cells = longer;
    }
    cells.set(row, own * size);
    slots[slot] = ++own;
    if (own * 2 > slots.length) growSlots();
  }

  function growSlots(): void {
    slots = new Int32Array(slots.length * 2);
    for (let place = 0; place < own; place++) {
      let slot = hashOf(cells, place * size, size) & (slots.length - 1);
      while (slots[slot] !== 0) slot = (slot + 1) & (slots.length - 1);
      slots[slot] = place + 1;
    }
  }

  const rows: Rows = {
    count: () => first + own,
    ownCount: () => own,
    cell: (index, place) =>
      base !== null && index < first ? base.cell(index, place) : cells[(index - first) * size + place],
    row(index) {
      if (base !== null && index < first) return base.row(index);
      return cells.subarray((index - first) * size, (index - first + 1) * size);
    },
    indexOf(row) {
      const hash = hashOf(row, 0, size);
      const inBase = base?.find(row, hash, first) ?? -1;
      if (inBase >= 0) return inBase;
      const slot = slotOf(row, hash);
      if (slots[slot] === 0) {
        add(row, slot);
        return first + own - 1;
      }
      return first + slots[slot] - 1;
    },
    find(row, hash, count) {
      const inBase = base?.find(row, hash, Math.min(first, count)) ?? -1;
      if (inBase >= 0) return inBase;
      const index = first + slots[slotOf(row, hash)] - 1;
      return index >= first && index < count ? index : -1;
    },
  };
  return rows;
}

function hashOf(table: Uint32Array, at: number, size: number): number {
  let hash = 0x1f83d9ab;
  for (let cell = 0; cell < size; cell++) {
    hash = Math.imul((hash << 5) ^ (hash >>> 27) ^ table[at + cell], 0x9e3779b1);
  }
  hash = Math.imul(hash ^ (hash >>> 15), 0x85ebca77);
  return (hash ^ (hash >>> 13)) >>> 0;
}

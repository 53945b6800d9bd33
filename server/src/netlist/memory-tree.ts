// Words and pairs of parts, each kept once, as numbers. A part is a word at the lowest level of a tree and a pair of parts
// above it: which of the two, its level says. Knows nothing of indices. A branch knows all parts that there were when it
// began by the same numbers, and keeps its own beside them: what it costs is what it adds.

import { allX, type Bits, fromLimbs, limbCount } from './four-state';

/** By its level: a word at 0, a pair of parts of the level below above that. */
export type Part = number;

export interface MemoryTree {
  wordOf(value: Bits): Part;
  bitsOf(word: Part): Bits;
  /** `level`: of the pair. */
  pair(left: Part, right: Part, level: number): Part;
  child(pair: Part, side: 0 | 1, level: number): Part;
  /** Whether there is a part of this number at this level. */
  has(part: Part, level: number): boolean;
  /** Whether some word in it has no bit that is known. */
  isOpen(part: Part, level: number): boolean;
  /** A part of this level in which every word is the same. */
  uniform(level: number, word: Part): Part;
  /** Parts that were made here and not in what this branched from. */
  ownCount(): number;
  branch(): MemoryTree;
}

/** `width`: bits of one word; `levels`: of the highest pair. */
export function createMemoryTree(width: number, levels: number, from?: readonly Rows[]): MemoryTree {
  const limbs = limbCount(width);
  /** By level. */
  const rows = Array.from({ length: levels + 1 }, (_, level) =>
    createRows(level === 0 ? 2 * limbs : 2, from?.[level] ?? null),
  );
  const word = new Uint32Array(2 * limbs);
  const both = new Uint32Array(2);
  const { b: open } = allX(width);

  const tree: MemoryTree = {
    wordOf(value) {
      word.set(value.a, 0);
      word.set(value.b, limbs);
      return rows[0].indexOf(
        word,
        value.b.every((limb, index) => limb === open[index]),
      );
    },
    bitsOf(index) {
      const cells = rows[0].row(index);
      return fromLimbs(width, cells.slice(0, limbs), cells.slice(limbs));
    },
    pair(left, right, level) {
      both[0] = left;
      both[1] = right;
      return rows[level].indexOf(both, rows[level - 1].flag(left) || rows[level - 1].flag(right));
    },
    has: (part, level) => part < rows[level].count(),
    child: (pair, side, level) => rows[level].cell(pair, side),
    isOpen: (part, level) => rows[level].flag(part),
    uniform(level, of) {
      let part = of;
      for (let height = 1; height <= level; height++) part = tree.pair(part, part, height);
      return part;
    },
    ownCount: () => rows.reduce((sum, own) => sum + own.ownCount(), 0),
    branch: () => createMemoryTree(width, levels, rows),
  };
  return tree;
}

interface Rows {
  count(): number;
  ownCount(): number;
  cell(index: number, place: number): number;
  /** To be read at once: it is a window on what may be replaced. */
  row(index: number): Uint32Array;
  flag(index: number): boolean;
  /** The row with these cells; made, with this flag, where there is none. */
  indexOf(row: Uint32Array, flag: boolean): number;
  /** As `indexOf`, among the first `count` rows alone; -1 where there is none. */
  find(row: Uint32Array, hash: number, count: number): number;
}

/** Rows of `size` cells. `base` may grow on: what it gets after now is not seen here. */
function createRows(size: number, base: Rows | null): Rows {
  const first = base?.count() ?? 0;
  let cells = new Uint32Array(16 * size);
  let flags = new Uint8Array(16);
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

  function add(row: Uint32Array, flag: boolean, slot: number): void {
    if ((own + 1) * size > cells.length) {
      const longer = new Uint32Array(cells.length * 2);
      longer.set(cells);
      cells = longer;
      const more = new Uint8Array(flags.length * 2);
      more.set(flags);
      flags = more;
    }
    cells.set(row, own * size);
    flags[own] = flag ? 1 : 0;
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
    flag: (index) => (base !== null && index < first ? base.flag(index) : flags[index - first] === 1),
    indexOf(row, flag) {
      const hash = hashOf(row, 0, size);
      const inBase = base?.find(row, hash, first) ?? -1;
      if (inBase >= 0) return inBase;
      const slot = slotOf(row, hash);
      if (slots[slot] === 0) {
        add(row, flag, slot);
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

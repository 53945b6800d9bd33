// What a memory holds, as one number: equal contents have the same number, whoever made them and in whatever order. So a
// memory's whole state is a value like any other, kept by a register of `contentBits` bits, and operators on it are
// functions of their operands. Contents are binary trees over the bits of the indices that share every part they have in
// common: a word that nobody wrote costs nothing, a write costs one path. Past a number of parts nothing more is kept apart
// and every content is unknown.

import { allX, allZ, type Bits, fromPlanes, ones, toNumber, zero } from './four-state';
import { merge } from './four-state-parts';
import { boundsOf, type IndexPattern, patternOf } from './memory-index';
import { createMemoryTree, type MemoryTree, type Part } from './memory-tree';
import { writeAt } from './evaluate-choice';

/** Bits of the number that stands for a content. A number with an unknown bit stands for words that are all unknown. */
export const contentBits = 24;

export interface MemoryShape {
  /** Bits of one word. */
  readonly width: number;
  /** Words or rows per dimension, outermost first; an index counts from 0 in each. */
  readonly sizes: readonly number[];
}

/** Contents as values of `contentBits` bits, indices signed and at least 32 bits wide, one per dimension. */
export interface MemoryContents {
  readonly shape: MemoryShape;
  /** The word at the indices; x outside, and what all words that it could be agree on where bits of an index are unknown. */
  read(content: Bits, indices: readonly Bits[]): Bits;
  /** With `piece` at the bit number `low` of the word at the indices; outside nothing changes. Unknown: merged. */
  write(content: Bits, indices: readonly Bits[], low: Bits, piece: Bits): Bits;
  /** With one value in every word whose indices are in [from, until), all known. */
  fill(content: Bits, value: Bits, bounds: readonly { readonly from: number; readonly until: number }[]): Bits;
  /** With these words of a memory of one dimension, positions ascending. */
  load(content: Bits, words: readonly { readonly position: number; readonly value: Bits }[]): Bits;
  /** What all of them agree on. */
  merge(contents: readonly Bits[]): Bits;
  /** No word has been given a value, not even an unknown one: each reads x. */
  readonly blank: Bits;
  /** Words that have not been given a value filled with this digit; nothing of a content that is not known. */
  filledWith(content: Bits, digit: '0' | '1' | 'x'): Bits;
  /** Whether some word has no bit that is known. */
  isOpen(content: Bits): boolean;
  /** Positions of words (the last index runs fastest) that differ, ascending, no more than `most`. */
  differences(left: Bits, right: Bits, most: number): readonly number[];
  /** One of its own that knows the contents made so far by the same numbers, and adds to them apart: what one run needs. */
  branch(): MemoryContents;
}

/** Words and pairs that one branch makes at most, with the index over them some 300 MB. */
const mostOwnParts = 2 ** 23 + 2 ** 22;

/** Parts that one operation on unknown indices or contents may touch before its result is unknown as a whole. */
const mostTouched = 65_536;

export function createMemoryContents(shape: MemoryShape, from?: MemoryTree): MemoryContents {
  const levelsOf = shape.sizes.map((size) => (size <= 1 ? 0 : 32 - Math.clz32(size - 1)));
  const levels = levelsOf.reduce((sum, count) => sum + count, 0);
  const tree = from ?? createMemoryTree(shape.width, levels);
  const unknownWord = tree.wordOf(allX(shape.width));
  // A word that was not given is kept as z throughout, and reads x: logic cannot tell the two apart. What no index leads
  // to stays so for ever, so that contents of equal words are equal.
  const notGiven = tree.wordOf(allZ(shape.width));
  const blank = tree.uniform(levels, notGiven);
  const unknown = closed(blank, unknownWord);

  function bitsOf(word: Part): Bits {
    return tree.bitsOf(word === notGiven ? unknownWord : word);
  }

  /** A number that was never given out is one whose bits moved apart, and no content. */
  function partOf(content: Bits): Part {
    const part = toNumber(content);
    return part === null || !tree.has(part, levels) ? unknown : part;
  }

  function isFull(): boolean {
    return tree.ownCount() >= mostOwnParts;
  }

  function contentOf(part: Part): Bits {
    return isFull() ? allX(contentBits) : fromPlanes(contentBits, part, 0);
  }

  function wordAt(part: Part, pattern: IndexPattern): Part {
    let at = part;
    for (let level = levels - 1; level >= 0; level--) at = tree.child(at, pattern.bits[level] as 0 | 1, level + 1);
    return at;
  }

  return {
    shape,
    blank: contentOf(blank),
    read(content, indices) {
      const pattern = patternOf(indices, shape.sizes, levelsOf);
      if (pattern === null || pattern.mayBeOutside) return allX(shape.width);
      const part = partOf(content);
      if (pattern.isKnown) return bitsOf(wordAt(part, pattern));
      return bitsOf(agreed(part, pattern));
    },
    write(content, indices, low, piece) {
      if (isFull()) return allX(contentBits);
      const part = partOf(content);
      const pattern = patternOf(indices, shape.sizes, levelsOf);
      if (pattern === null) return contentOf(part);
      const isSure = pattern.isKnown && !pattern.mayBeOutside;
      const written = (word: Part): Part => {
        const old = bitsOf(word);
        const next = writeAt(old, low, piece);
        return tree.wordOf(isSure ? next : merge(old, next));
      };
      return contentOf(isSure ? changedAt(part, pattern, written) : changed(part, pattern, written));
    },
    fill(content, value, bounds) {
      if (isFull()) return allX(contentBits);
      const word = tree.wordOf(value);
      return contentOf(filled(partOf(content), word, bounds));
    },
    load: (content, words) => contentOf(loaded(partOf(content), words)),
    merge(contents) {
      if (isFull()) return allX(contentBits);
      return contentOf(contents.map(partOf).reduce(merged));
    },
    filledWith(content, digit) {
      if (toNumber(content) === null) return content;
      return contentOf(closed(partOf(content), tree.wordOf(fillings[digit](shape.width))));
    },
    isOpen: (content) => toNumber(content) === null || hasOpenWord(partOf(content)),
    differences(left, right, most) {
      const found: number[] = [];
      collect(partOf(left), partOf(right), levels, 0, (position) => found.push(position) < most);
      return found;
    },
    branch: () => createMemoryContents(shape, tree.branch()),
  };

  /** With the one word replaced. */
  function changedAt(root: Part, { bits }: IndexPattern, change: (word: Part) => Part): Part {
    const visit = (part: Part, level: number): Part => {
      if (level === 0) return change(part);
      const [left, right] = [tree.child(part, 0, level), tree.child(part, 1, level)];
      if (bits[level - 1] === 1) return tree.pair(left, visit(right, level - 1), level);
      return tree.pair(visit(left, level - 1), right, level);
    };
    return visit(root, levels);
  }

  /** What all words agree on that the pattern could mean. */
  function agreed(root: Part, pattern: IndexPattern): Part {
    const known = new Map<number, Part>();
    const visit = (part: Part, level: number): Part => {
      if (level === 0) return part;
      const key = keyOf(part, level);
      const found = known.get(key);
      if (found !== undefined) return found;
      const bit = pattern.bits[level - 1];
      const left = visit(tree.child(part, bit === null ? 0 : bit, level), level - 1);
      let result = left;
      if (bit === null && left !== unknownWord && known.size < mostTouched) {
        const right = visit(tree.child(part, 1, level), level - 1);
        result = left === right ? left : tree.wordOf(merge(bitsOf(left), bitsOf(right)));
      } else if (bit === null) result = unknownWord;
      known.set(key, result);
      return result;
    };
    return visit(root, levels);
  }

  /** With every word that the pattern could mean replaced. */
  function changed(root: Part, pattern: IndexPattern, change: (word: Part) => Part): Part {
    const known = new Map<number, Part>();
    let touched = 0;
    const visit = (part: Part, level: number, base: number): Part => {
      const where = whereIs(base, level);
      if (touched > mostTouched || where === 'outside') return part;
      const make = (): Part => {
        touched += 1;
        if (level === 0) return change(part);
        const bit = pattern.bits[level - 1];
        const [left, right] = [tree.child(part, 0, level), tree.child(part, 1, level)];
        return tree.pair(
          bit === 1 ? left : visit(left, level - 1, 2 * base),
          bit === 0 ? right : visit(right, level - 1, 2 * base + 1),
          level,
        );
      };
      return where === 'across' ? make() : once(known, keyOf(part, level), make);
    };
    const result = visit(root, levels, 0);
    return touched > mostTouched ? unknown : result;
  }

  function filled(root: Part, word: Part, bounds: readonly { readonly from: number; readonly until: number }[]): Part {
    const known = new Map<number, Part>();
    const isWhole = boundsOf(shape.sizes, levelsOf, bounds);
    /** `rest`: levels of this dimension that are left; the block begins at index `base`. */
    const visit = (part: Part, level: number, dimension: number, rest: number, base: number): Part => {
      const from = Math.max(0, bounds[dimension].from);
      const until = Math.min(shape.sizes[dimension], bounds[dimension].until);
      if (base >= until || base + 2 ** rest <= from) return part;
      const isInside = base >= from && base + 2 ** rest <= until;
      if (isInside && isWhole(dimension + 1)) return tree.uniform(level, word);
      if (rest === 0 && dimension + 1 === shape.sizes.length) return word;
      if (rest === 0) {
        return once(known, keyOf(part, level), () => visit(part, level, dimension + 1, levelsOf[dimension + 1], 0));
      }
      const half = 2 ** (rest - 1);
      return tree.pair(
        visit(tree.child(part, 0, level), level - 1, dimension, rest - 1, base),
        visit(tree.child(part, 1, level), level - 1, dimension, rest - 1, base + half),
        level,
      );
    };
    return visit(root, levels, 0, levelsOf[0], 0);
  }

  function loaded(root: Part, words: readonly { readonly position: number; readonly value: Bits }[]): Part {
    let next = 0;
    const visit = (part: Part, level: number, base: number): Part => {
      if (next >= words.length || words[next].position >= base + 2 ** level) return part;
      if (level === 0) return tree.wordOf(words[next++].value);
      const left = visit(tree.child(part, 0, level), level - 1, base);
      return tree.pair(left, visit(tree.child(part, 1, level), level - 1, base + 2 ** (level - 1)), level);
    };
    return visit(root, levels, 0);
  }

  function merged(left: Part, right: Part): Part {
    const known = new Map<string, Part>();
    const visit = (one: Part, other: Part, level: number): Part => {
      if (one === other || known.size > mostTouched) return one;
      return once(known, `${level} ${one} ${other}`, () => {
        if (level === 0) return tree.wordOf(merge(bitsOf(one), bitsOf(other)));
        return tree.pair(
          visit(tree.child(one, 0, level), tree.child(other, 0, level), level - 1),
          visit(tree.child(one, 1, level), tree.child(other, 1, level), level - 1),
          level,
        );
      });
    };
    const result = visit(left, right, levels);
    return known.size > mostTouched ? unknown : result;
  }

  /** With every word that was not given replaced. */
  function closed(root: Part, filling: Part): Part {
    const known = new Map<number, Part>();
    const visit = (part: Part, level: number, base: number): Part => {
      const where = whereIs(base, level);
      if (where === 'outside' || !tree.isOpen(part, level)) return part;
      if (level === 0) return part === notGiven ? filling : part;
      const both = () =>
        tree.pair(
          visit(tree.child(part, 0, level), level - 1, base * 2),
          visit(tree.child(part, 1, level), level - 1, base * 2 + 1),
          level,
        );
      return where === 'across' ? both() : once(known, keyOf(part, level), both);
    };
    return visit(root, levels, 0);
  }

  function hasOpenWord(root: Part): boolean {
    const closedParts = new Set<number>();
    const visit = (part: Part, level: number, base: number): boolean => {
      const where = whereIs(base, level);
      if (where === 'outside' || !tree.isOpen(part, level) || closedParts.has(keyOf(part, level))) return false;
      if (level === 0) return true;
      const isOpen =
        visit(tree.child(part, 0, level), level - 1, base * 2) ||
        visit(tree.child(part, 1, level), level - 1, base * 2 + 1);
      if (!isOpen && where === 'inside') closedParts.add(keyOf(part, level));
      return isOpen;
    };
    return visit(root, levels, 0);
  }

  /** False ends it. `base`: the index bits so far. */
  function collect(left: Part, right: Part, level: number, base: number, tell: (position: number) => boolean): boolean {
    if (left === right || whereIs(base, level) === 'outside') return true;
    if (level === 0) {
      const position = positionOf(base);
      return position === null || tell(position);
    }
    const [one, other] = ([0, 1] as const).map((side) => ({
      left: tree.child(left, side, level),
      right: tree.child(right, side, level),
    }));
    const goesOn = collect(one.left, one.right, level - 1, base * 2, tell);
    return goesOn && collect(other.left, other.right, level - 1, base * 2 + 1, tell);
  }

  /**
   * Where the words lie whose index bits begin with `bits`, `level` of them being left. `inside`: as far as the indices go
   * that those bits decide; what lies outside of the others is the same in every such part.
   */
  function whereIs(bits: number, level: number): 'inside' | 'across' | 'outside' {
    let left = level;
    let rest = bits;
    let where: 'inside' | 'across' = 'inside';
    for (let dimension = shape.sizes.length - 1; dimension >= 0; dimension--) {
      const free = Math.min(left, levelsOf[dimension]);
      left -= free;
      const count = 2 ** (levelsOf[dimension] - free);
      const first = (rest % count) * 2 ** free;
      rest = Math.floor(rest / count);
      if (first >= shape.sizes[dimension]) return 'outside';
      if (free < levelsOf[dimension] && first + 2 ** free > shape.sizes[dimension]) where = 'across';
    }
    return where;
  }

  /** The position among all words; null for one that no index leads to. */
  function positionOf(bits: number): number | null {
    let rest = bits;
    let factor = 1;
    let position = 0;
    for (let dimension = shape.sizes.length - 1; dimension >= 0; dimension--) {
      const index = rest % 2 ** levelsOf[dimension];
      if (index >= shape.sizes[dimension]) return null;
      rest = Math.floor(rest / 2 ** levelsOf[dimension]);
      position += index * factor;
      factor *= shape.sizes[dimension];
    }
    return position;
  }
}

const fillings = { 0: zero, 1: ones, x: allX };

function keyOf(part: Part, level: number): number {
  return part * 64 + level;
}

function once<Key>(known: Map<Key, Part>, key: Key, make: () => Part): Part {
  const found = known.get(key);
  if (found !== undefined) return found;
  const part = make();
  known.set(key, part);
  return part;
}

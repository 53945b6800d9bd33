// What a memory holds, as one number: equal contents have the same number, whoever made them and in whatever order. So a
// memory's whole state is a value like any other, kept by a register of `contentBits` bits, and operators on it are
// functions of their operands. Contents are binary trees over the bits of the indices that share every part they have in
// common: a word that nobody wrote costs nothing, a write costs one path. Past a number of parts nothing more is kept apart
// and every content is unknown.

import { allX, type Bits, fromPlanes, ones, toNumber, zero } from './four-state';
import { merge } from './four-state-parts';
import { boundsOf, type IndexPattern, patternOf } from './memory-index';
import { createMemoryTree, type Part } from './memory-tree';
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
  /** No word has been given a value: unlike a number with unknown bits, which is a content that is not known. */
  readonly blank: Bits;
  /** Words that are unknown as a whole replaced by this digit; nothing of a content that is not known. */
  filledWith(content: Bits, digit: '0' | '1'): Bits;
  /** Positions of words (the last index runs fastest) that differ, ascending, no more than `most`. */
  differences(left: Bits, right: Bits, most: number): readonly number[];
  /** One of its own that knows the contents made so far by the same numbers, and adds to them apart: what one run needs. */
  branch(): MemoryContents;
}

/** Words or pairs that one branch makes at most, with the index over them some 250 MB. */
const mostOwnParts = 2 ** 23;

/** Parts that one operation on unknown indices or contents may touch before its result is unknown as a whole. */
const mostTouched = 65_536;

export function createMemoryContents(shape: MemoryShape, tree = createMemoryTree(shape.width)): MemoryContents {
  const levelsOf = shape.sizes.map((size) => (size <= 1 ? 0 : 32 - Math.clz32(size - 1)));
  const levels = levelsOf.reduce((sum, count) => sum + count, 0);
  const blank = tree.uniform(levels, tree.wordOf(allX(shape.width)));

  /** A number that was never given out is one whose bits moved apart, and no content. */
  function partOf(content: Bits): Part {
    const part = toNumber(content);
    return part === null || !tree.has(part, levels) ? blank : part;
  }

  function isFull(): boolean {
    return tree.ownCount() >= mostOwnParts;
  }

  function contentOf(part: Part): Bits {
    return isFull() ? allX(contentBits) : fromPlanes(contentBits, part, 0);
  }

  function wordAt(part: Part, pattern: IndexPattern): Part {
    let at = part;
    for (let level = levels - 1; level >= 0; level--) at = tree.child(at, pattern.bits[level] as 0 | 1);
    return at;
  }

  return {
    shape,
    blank: contentOf(blank),
    read(content, indices) {
      const pattern = patternOf(indices, shape.sizes, levelsOf);
      if (pattern === null || pattern.mayBeOutside) return allX(shape.width);
      const part = partOf(content);
      if (pattern.isKnown) return tree.bitsOf(wordAt(part, pattern));
      return tree.bitsOf(agreed(part, pattern));
    },
    write(content, indices, low, piece) {
      if (isFull()) return allX(contentBits);
      const part = partOf(content);
      const pattern = patternOf(indices, shape.sizes, levelsOf);
      if (pattern === null) return contentOf(part);
      const isSure = pattern.isKnown && !pattern.mayBeOutside;
      const written = (word: Part): Part => {
        const old = tree.bitsOf(word);
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
      const unknownWord = tree.wordOf(allX(shape.width));
      const filling = tree.wordOf(digit === '1' ? ones(shape.width) : zero(shape.width));
      return contentOf(mapped(partOf(content), (word) => (word === unknownWord ? filling : word)));
    },
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
      const [left, right] = [tree.child(part, 0), tree.child(part, 1)];
      if (bits[level - 1] === 1) return tree.pair(left, visit(right, level - 1));
      return tree.pair(visit(left, level - 1), right);
    };
    return visit(root, levels);
  }

  /** What all words agree on that the pattern could mean. */
  function agreed(root: Part, pattern: IndexPattern): Part {
    const known = new Map<number, Part>();
    const unknownWord = tree.wordOf(allX(shape.width));
    const visit = (part: Part, level: number): Part => {
      if (level === 0) return part;
      const key = keyOf(part, level);
      const found = known.get(key);
      if (found !== undefined) return found;
      const bit = pattern.bits[level - 1];
      const left = visit(tree.child(part, bit === null ? 0 : bit), level - 1);
      let result = left;
      if (bit === null && left !== unknownWord && known.size < mostTouched) {
        const right = visit(tree.child(part, 1), level - 1);
        result = left === right ? left : tree.wordOf(merge(tree.bitsOf(left), tree.bitsOf(right)));
      } else if (bit === null) result = unknownWord;
      known.set(key, result);
      return result;
    };
    return visit(root, levels);
  }

  /** With every word that the pattern could mean replaced. */
  function changed(root: Part, pattern: IndexPattern, change: (word: Part) => Part): Part {
    const known = new Map<number, Part>();
    const visit = (part: Part, level: number): Part => {
      if (known.size > mostTouched) return part;
      if (level === 0) return once(known, keyOf(part, 0), () => change(part));
      return once(known, keyOf(part, level), () => {
        const bit = pattern.bits[level - 1];
        const [left, right] = [tree.child(part, 0), tree.child(part, 1)];
        return tree.pair(bit === 1 ? left : visit(left, level - 1), bit === 0 ? right : visit(right, level - 1));
      });
    };
    const result = visit(root, levels);
    return known.size > mostTouched ? blank : result;
  }

  function filled(root: Part, word: Part, bounds: readonly { readonly from: number; readonly until: number }[]): Part {
    const known = new Map<number, Part>();
    const isWhole = boundsOf(shape.sizes, bounds);
    /** `rest`: levels of this dimension that are left; the block begins at index `base`. */
    const visit = (part: Part, level: number, dimension: number, rest: number, base: number): Part => {
      const { from, until } = bounds[dimension];
      if (base >= until || base + 2 ** rest <= from) return part;
      const isInside = base >= from && base + 2 ** rest <= until;
      const covers = isInside || (base >= from && until >= shape.sizes[dimension] && base + 2 ** rest > until);
      if (covers && isWhole(dimension + 1)) return tree.uniform(level, word);
      if (rest === 0 && dimension + 1 === shape.sizes.length) return word;
      if (rest === 0) {
        return once(known, keyOf(part, level), () => visit(part, level, dimension + 1, levelsOf[dimension + 1], 0));
      }
      const half = 2 ** (rest - 1);
      return tree.pair(
        visit(tree.child(part, 0), level - 1, dimension, rest - 1, base),
        visit(tree.child(part, 1), level - 1, dimension, rest - 1, base + half),
      );
    };
    return visit(root, levels, 0, levelsOf[0], 0);
  }

  function loaded(root: Part, words: readonly { readonly position: number; readonly value: Bits }[]): Part {
    let next = 0;
    const visit = (part: Part, level: number, base: number): Part => {
      if (next >= words.length || words[next].position >= base + 2 ** level) return part;
      if (level === 0) return tree.wordOf(words[next++].value);
      const left = visit(tree.child(part, 0), level - 1, base);
      return tree.pair(left, visit(tree.child(part, 1), level - 1, base + 2 ** (level - 1)));
    };
    return visit(root, levels, 0);
  }

  function merged(left: Part, right: Part): Part {
    const known = new Map<string, Part>();
    const visit = (one: Part, other: Part, level: number): Part => {
      if (one === other || known.size > mostTouched) return one;
      return once(known, `${level} ${one} ${other}`, () => {
        if (level === 0) return tree.wordOf(merge(tree.bitsOf(one), tree.bitsOf(other)));
        return tree.pair(
          visit(tree.child(one, 0), tree.child(other, 0), level - 1),
          visit(tree.child(one, 1), tree.child(other, 1), level - 1),
        );
      });
    };
    const result = visit(left, right, levels);
    return known.size > mostTouched ? blank : result;
  }

  function mapped(root: Part, change: (word: Part) => Part): Part {
    const known = new Map<number, Part>();
    const visit = (part: Part, level: number): Part =>
      once(known, keyOf(part, level), () =>
        level === 0
          ? change(part)
          : tree.pair(visit(tree.child(part, 0), level - 1), visit(tree.child(part, 1), level - 1)),
      );
    return visit(root, levels);
  }

  /** False ends it. `base`: the index bits so far. */
  function collect(left: Part, right: Part, level: number, base: number, tell: (position: number) => boolean): boolean {
    if (left === right || isBehindAll(base, level)) return true;
    if (level === 0) {
      const position = positionOf(base);
      return position === null || tell(position);
    }
    const goesOn = collect(tree.child(left, 0), tree.child(right, 0), level - 1, base * 2, tell);
    return goesOn && collect(tree.child(left, 1), tree.child(right, 1), level - 1, base * 2 + 1, tell);
  }

  /** Whether all index bits that begin like this lie outside the outermost dimension. */
  function isBehindAll(bits: number, level: number): boolean {
    return Math.floor((bits * 2 ** level) / 2 ** (levels - levelsOf[0])) >= shape.sizes[0];
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

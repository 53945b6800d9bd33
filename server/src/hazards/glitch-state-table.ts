// A set of states that are being followed: packed, 32 bits to a word, numbered in the order in which they were first
// met. Grows as it is filled; what is in it is never taken out.

export interface StateTable {
  readonly wordsPerState: number;
  /** Of these the first `count` × `wordsPerState` are in use. */
  words: Int32Array;
  count: number;
  /** Number of the state + 1 at the slot that its hash leads to or the first free one behind; 0 = free. */
  slots: Int32Array;
}

const slotsAtFirst = 1024;

export function createStateTable(bits: number): StateTable {
  const wordsPerState = Math.max(1, Math.ceil(bits / 32));
  const words = new Int32Array((slotsAtFirst / 2) * wordsPerState);
  return { wordsPerState, words, count: 0, slots: new Int32Array(slotsAtFirst) };
}

/** The number of the state that stands in `source` from `from`; it is added where it is new. */
export function numberOfState(table: StateTable, source: Int32Array, from: number): number {
  if (2 * table.count >= table.slots.length) grow(table);
  const { wordsPerState, slots, words } = table;
  const mask = slots.length - 1;
  let slot = hashOf(source, from, wordsPerState) & mask;
  while (slots[slot] !== 0) {
    if (isSame(words, (slots[slot] - 1) * wordsPerState, source, from, wordsPerState)) return slots[slot] - 1;
    slot = (slot + 1) & mask;
  }
  for (let word = 0; word < wordsPerState; word++) words[table.count * wordsPerState + word] = source[from + word];
  table.count += 1;
  slots[slot] = table.count;
  return table.count - 1;
}

/** 1 or 0 of one bit of a state. */
export function levelInState({ words, wordsPerState }: StateTable, state: number, bit: number): number {
  return (words[state * wordsPerState + (bit >>> 5)] >>> (bit & 31)) & 1;
}

function grow(table: StateTable): void {
  const { wordsPerState, words, count } = table;
  const slots = new Int32Array(4 * table.slots.length);
  const mask = slots.length - 1;
  for (let state = 0; state < count; state++) {
    let slot = hashOf(words, state * wordsPerState, wordsPerState) & mask;
    while (slots[slot] !== 0) slot = (slot + 1) & mask;
    slots[slot] = state + 1;
  }
  table.slots = slots;
  table.words = new Int32Array((slots.length / 2) * wordsPerState);
  table.words.set(words);
}

function isSame(words: Int32Array, at: number, others: Int32Array, from: number, count: number): boolean {
  for (let word = 0; word < count; word++) if (words[at + word] !== others[from + word]) return false;
  return true;
}

/** Mixes every bit into the low ones, by which the slot is chosen; any odd factor with bits all over will do. */
function hashOf(words: Int32Array, from: number, count: number): number {
  let hash = 0;
  for (let word = from; word < from + count; word++) {
    hash = Math.imul(hash ^ words[word], 0x2c1b3c6d);
    hash ^= hash >>> 15;
  }
  return hash;
}

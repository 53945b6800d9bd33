// Remembers which states a run has been in, and when. Most states are one number, and a long run has many: those are
// kept in flat columns, by open addressing; the few others in a map.

export type StateKey = number | string;

export interface SeenStates {
  readonly size: number;
  /** When this state was met before; if never, -1, and it is remembered as met now. */
  meet(key: StateKey, now: number): number;
}

export function createSeenStates(): SeenStates {
  const texts = new Map<string, number>();
  let keys = new Float64Array(256);
  let times = new Float64Array(256).fill(empty);
  let count = 0;

  function slotOf(key: number): number {
    const mask = keys.length - 1;
    const high = Math.imul(Math.floor(key / 2 ** 32), 0x2c1b3c6d);
    let slot = (Math.imul(key ^ high, 0x9e3779b1) >>> 7) & mask;
    while (times[slot] !== empty && keys[slot] !== key) slot = (slot + 1) & mask;
    return slot;
  }

  function grow(): void {
    const [oldKeys, oldTimes] = [keys, times];
    keys = new Float64Array(oldKeys.length * 2);
    times = new Float64Array(oldKeys.length * 2).fill(empty);
    for (let slot = 0; slot < oldKeys.length; slot++) {
      if (oldTimes[slot] === empty) continue;
      const moved = slotOf(oldKeys[slot]);
      keys[moved] = oldKeys[slot];
      times[moved] = oldTimes[slot];
    }
  }

  return {
    get size() {
      return count + texts.size;
    },
    meet(key, now) {
      if (typeof key === 'string') {
        const before = texts.get(key);
        if (before === undefined) texts.set(key, now);
        return before ?? -1;
      }
      const slot = slotOf(key);
      if (times[slot] !== empty) return times[slot];
      keys[slot] = key;
      times[slot] = now;
      count += 1;
      if (count * 2 > keys.length) grow();
      return -1;
    },
  };
}

const empty = -1;

// What is to happen later: numbered slots, each scheduled at most once, taken in the order of their times; slots of one
// time in the order they were scheduled. Nothing is allocated per event: a slot is its own entry in a list per instant,
// and a heap orders the instants. Times are ps, whole numbers from 0 to 2^53 - 1.

export interface EventQueue {
  /** The slot must not be scheduled. */
  schedule(slot: number, time: number): void;
  /** Does nothing where the slot is not scheduled. */
  cancel(slot: number): void;
  /** ps, or -1 where the slot is not scheduled. */
  timeOf(slot: number): number;
  /** Time of the next slot, -1 where nothing is scheduled. */
  nextTime(): number;
  /** Takes one slot of the next time; only after `nextTime` has said that there is one. */
  take(): number;
}

const none = -1;

/** `slotCount`: how many slots there are at least; slots beyond are made room for as they come. */
export function createEventQueue(slotCount: number): EventQueue {
  let next = new Int32Array(slotCount).fill(none);
  let previous = new Int32Array(slotCount).fill(none);
  let instantOf = new Int32Array(slotCount).fill(none);
  const instants = createInstants();

  function makeRoom(slot: number): void {
    if (slot < next.length) return;
    next = grown(next, slot + 1);
    previous = grown(previous, slot + 1);
    instantOf = grown(instantOf, slot + 1);
  }

  function remove(slot: number): void {
    const instant = instantOf[slot];
    if (previous[slot] === none) instants.setHead(instant, next[slot]);
    else next[previous[slot]] = next[slot];
    if (next[slot] === none) instants.setTail(instant, previous[slot]);
    else previous[next[slot]] = previous[slot];
    instantOf[slot] = none;
  }

  return {
    schedule(slot, time) {
      makeRoom(slot);
      const instant = instants.at(time);
      const last = instants.tail(instant);
      instantOf[slot] = instant;
      next[slot] = none;
      previous[slot] = last;
      if (last === none) instants.setHead(instant, slot);
      else next[last] = slot;
      instants.setTail(instant, slot);
    },
    cancel(slot) {
      if (slot < instantOf.length && instantOf[slot] !== none) remove(slot);
    },
    timeOf(slot) {
      return slot < instantOf.length && instantOf[slot] !== none ? instants.time(instantOf[slot]) : none;
    },
    nextTime() {
      return instants.first() === none ? none : instants.time(instants.first());
    },
    take() {
      const slot = instants.head(instants.first());
      remove(slot);
      return slot;
    },
  };
}

/**
 * Instants with a list each, in a binary heap by time and age. Recent ones are found again by time in a small table; one
 * that is not found is made anew, so two instants may share a time: the older is served first.
 */
function createInstants() {
  let time = new Float64Array(64);
  let age = new Float64Array(64);
  let head = new Int32Array(64);
  let tail = new Int32Array(64);
  let heap = new Int32Array(64);
  let heapSize = 0;
  let made = 0;
  let ageCount = 0;
  const free: number[] = [];
  const recent = new Int32Array(256).fill(none);

  function precedes(left: number, right: number): boolean {
    return time[left] < time[right] || (time[left] === time[right] && age[left] < age[right]);
  }

  function rise(from: number): void {
    const instant = heap[from];
    let at = from;
    while (at > 0) {
      const parent = (at - 1) >>> 1;
      if (!precedes(instant, heap[parent])) break;
      heap[at] = heap[parent];
      at = parent;
    }
    heap[at] = instant;
  }

  function sink(instant: number): void {
    let at = 0;
    for (let child = 1; child < heapSize; child = 2 * at + 1) {
      if (child + 1 < heapSize && precedes(heap[child + 1], heap[child])) child++;
      if (!precedes(heap[child], instant)) break;
      heap[at] = heap[child];
      at = child;
    }
    heap[at] = instant;
  }

  function make(at: number): number {
    const instant = free.pop() ?? made++;
    if (instant === time.length) {
      time = grown(time, made);
      age = grown(age, made);
      head = grown(head, made);
      tail = grown(tail, made);
      heap = grown(heap, made);
    }
    time[instant] = at;
    age[instant] = ageCount++;
    head[instant] = none;
    tail[instant] = none;
    heap[heapSize++] = instant;
    rise(heapSize - 1);
    return instant;
  }

  function dropFirst(): void {
    const instant = heap[0];
    free.push(instant);
    if (recent[placeOf(time[instant])] === instant) recent[placeOf(time[instant])] = none;
    heapSize--;
    if (heapSize > 0) sink(heap[heapSize]);
  }

  return {
    at(wanted: number): number {
      const place = placeOf(wanted);
      const known = recent[place];
      if (known !== none && time[known] === wanted) return known;
      const instant = make(wanted);
      recent[place] = instant;
      return instant;
    },
    /** The next instant that has a slot, -1 where none has. */
    first(): number {
      while (heapSize > 0 && head[heap[0]] === none) dropFirst();
      return heapSize === 0 ? none : heap[0];
    },
    time: (instant: number): number => time[instant],
    head: (instant: number): number => head[instant],
    tail: (instant: number): number => tail[instant],
    setHead(instant: number, slot: number): void {
      head[instant] = slot;
    },
    setTail(instant: number, slot: number): void {
      tail[instant] = slot;
    },
  };
}

function placeOf(time: number): number {
  return (Math.imul(time % 4294967296, 0x9e3779b1) >>> 24) & 255;
}

type Column = Int32Array | Float64Array;

function grown<Kind extends Column>(column: Kind, least: number): Kind {
  const larger = new (column.constructor as new (length: number) => Kind)(Math.max(least, 2 * column.length));
  larger.fill(none as never);
  larger.set(column as never);
  return larger;
}

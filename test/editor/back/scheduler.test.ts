import { describe, expect, it } from 'vitest';
import { createScheduler, type Owner, Superseded } from '../../../server/src/editor/back/scheduler';

/** A clock that a step of work moves on, and turns that are taken by hand. */
function bench() {
  let time = 0;
  const turns: (() => void)[] = [];
  const log: string[] = [];
  const scheduler = createScheduler({ now: () => time, turn: (go) => void turns.push(go) });
  function* work(name: string, steps: number): Generator<void, string> {
    for (let step = 0; step < steps; step += 1) {
      log.push(name);
      time += 5;
      yield;
    }
    return name;
  }
  return { scheduler, work, log, turn: () => turns.shift()?.(), waiting: () => turns.length };
}

const owner = (urgency: number): Owner => ({ urgency });

describe('work in one thread', () => {
  it('pauses between slices, for messages', () => {
    const { log, scheduler, turn, waiting, work } = bench();
    void scheduler.run(work('a', 10), owner(1));
    expect(log).toEqual([]);
    turn();
    // Two steps of 5 ms fill a slice of 8 ms.
    expect(log).toEqual(['a', 'a']);
    expect(waiting()).toBe(1);
  });

  it('goes on with the most urgent, of equals with the oldest', async () => {
    const { log, scheduler, turn, work } = bench();
    const results = [
      scheduler.run(work('whole', 3), owner(3)),
      scheduler.run(work('first', 1), owner(1)),
      scheduler.run(work('second', 1), owner(1)),
    ];
    turn();
    void scheduler.run(work('urgent', 2), owner(0));
    for (let count = 0; count < 6; count += 1) turn();
    expect(log).toEqual(['first', 'urgent', 'urgent', 'second', 'whole', 'whole', 'whole']);
    expect(await Promise.all(results)).toEqual(['whole', 'first', 'second']);
  });

  it('grows more urgent with its owner', () => {
    const { log, scheduler, turn, work } = bench();
    const late = owner(3);
    void scheduler.run(work('late', 2), late);
    void scheduler.run(work('early', 2), owner(2));
    late.urgency = 0;
    turn();
    expect(log).toEqual(['late', 'late']);
  });

  it('is dropped by not going on', async () => {
    const { log, scheduler, turn, waiting, work } = bench();
    const dropped = owner(1);
    const result = scheduler.run(work('a', 10), dropped);
    turn();
    scheduler.drop(dropped);
    await expect(result).rejects.toBeInstanceOf(Superseded);
    await expect(scheduler.run(work('a', 1), dropped)).rejects.toBeInstanceOf(Superseded);
    while (waiting() > 0) turn();
    expect(log).toEqual(['a', 'a']);
  });

  it('that throws ends alone', async () => {
    const { scheduler, turn, work } = bench();
    function* mistaken(): Generator<void, string> {
      yield;
      throw new Error('a mistake');
    }
    const failing = scheduler.run(mistaken(), owner(0));
    const other = scheduler.run(work('other', 1), owner(1));
    for (let count = 0; count < 3; count += 1) turn();
    await expect(failing).rejects.toThrow('a mistake');
    expect(await other).toBe('other');
  });
});

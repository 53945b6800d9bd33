import { expect, it } from 'vitest';
import { once } from '../../server/src/report/once';

function counted() {
  let steps = 0;
  const stage = once(function* () {
    for (let step = 0; step < 4; step += 1) {
      steps += 1;
      yield;
    }
    return { answer: 42 };
  });
  return { stage, steps: () => steps };
}

it('askers in turn do the work once, and get the same', () => {
  const { stage, steps } = counted();
  const [first, second] = [stage(), stage()];
  const results: unknown[] = [];
  while (results.length < 2)
    for (const asker of [first, second]) {
      const turn = asker.next();
      if (turn.done === true && turn.value !== undefined) results.push(turn.value);
    }
  expect(steps()).toBe(4);
  expect(results[0]).toBe(results[1]);
});

it('one that was left in the middle is taken up where it stood', () => {
  const { stage, steps } = counted();
  const left = stage();
  left.next();
  left.next();
  expect([...stage()]).toHaveLength(2);
  expect(steps()).toBe(4);
  expect(left.next()).toMatchObject({ done: true, value: { answer: 42 } });
});

it('one that threw is begun anew', () => {
  let runs = 0;
  const stage = once(function* () {
    runs += 1;
    yield;
    if (runs === 1) throw new Error('once');
    return runs;
  });
  expect(() => [...stage()]).toThrow('once');
  expect([...stage()]).toHaveLength(1);
  expect(stage().next()).toEqual({ done: true, value: 2 });
});

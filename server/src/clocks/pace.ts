// Lets long work pause: a stage spends what it does and yields when told to, after a fixed amount of work, never time.

export interface Pace {
  /** True when it is time to yield. */
  spend(amount: number): boolean;
}

const workPerTurn = 2_000;

export function createPace(): Pace {
  let spent = 0;
  return {
    spend(amount) {
      spent += amount;
      if (spent < workPerTurn) return false;
      spent = 0;
      return true;
    },
  };
}

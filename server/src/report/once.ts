// A stage that runs when it is first asked for, and only once: later askers get what it came to. Askers that come while it
// runs drive the same run on, so that a stage left in the middle is taken up where it stood. One that throws is begun anew.

export type Stage<Result> = () => Generator<void, Result>;

export function once<Result>(run: Stage<Result>): Stage<Result> {
  let kept: { readonly result: Result } | null = null;
  let running: Generator<void, Result> | null = null;

  function goOn(): void {
    running ??= run();
    try {
      const turn = running.next();
      if (turn.done === true) kept = { result: turn.value };
    } catch (error) {
      running = null;
      throw error;
    }
    if (kept !== null) running = null;
  }

  return function* () {
    for (;;) {
      if (kept === null) goOn();
      if (kept !== null) return (kept as { readonly result: Result }).result;
      yield;
    }
  };
}

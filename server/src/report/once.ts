// A stage that runs when it is first asked for, and only once: later askers get what it came to. A stage that is left in
// the middle is begun anew by the next asker; stages are pure, so nothing differs.

export type Stage<Result> = () => Generator<void, Result>;

export function once<Result>(run: Stage<Result>): Stage<Result> {
  let kept: { readonly result: Result } | null = null;
  return function* () {
    kept ??= { result: yield* run() };
    return kept.result;
  };
}

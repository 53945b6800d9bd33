// Drives a stage to its end at once: the command line has nothing else to do between its turns.

export function runToEnd<Result>(stage: Generator<void, Result>): Result {
  for (;;) {
    const turn = stage.next();
    if (turn.done === true) return turn.value;
  }
}

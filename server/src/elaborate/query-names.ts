// The system functions that ask about dimensions (IEEE 1800-2017 20.7).

const queries: ReadonlySet<string> = new Set([
  '$low',
  '$high',
  '$size',
  '$dimensions',
  '$left',
  '$right',
  '$increment',
]);

export function isQuery(name: string): boolean {
  return queries.has(name);
}

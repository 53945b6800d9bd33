// Order for everything that reaches a report: strings by UTF-16 code unit, never by locale.

export function compareText(left: string, right: string): number {
  return left < right ? -1 : left > right ? 1 : 0;
}

// A check against a published value. Its id is a row of `table.md`, which names the source; a row counts as covered by
// the tests written with `published`. The value under test must come out of the report, the waves or an account.

import { it } from 'vitest';

/** One test that covers one or more rows of the table. `what` says which part of a row, where a row has several. */
export function published(ids: string | readonly string[], what: string, check: () => void | Promise<void>): void {
  const list = typeof ids === 'string' ? [ids] : ids;
  it(`${list.join(', ')}: ${what}`, check);
}

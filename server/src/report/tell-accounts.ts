// Accounts as a reader takes them in: the sentences, and for each change told of its instant and its line.

import type { Account } from '../explain/account';
import { accountWords } from '../explain/account-words';
import type { Span } from '../text/place';

export interface ToldAccount {
  /** Full name of the bit. */
  readonly signal: string;
  /** ps */
  readonly at: number;
  /** Each line the cause of the one before. */
  readonly lines: readonly string[];
  readonly steps: readonly { readonly signal: string; readonly at: number; readonly span: Span }[];
}

/** Of several bits those at which something happened; all of them where at none. */
export function tellAccounts(accounts: readonly Account[]): readonly ToldAccount[] {
  const moved = accounts.filter(({ outcome }) => outcome !== 'steady');
  return (moved.length === 0 ? accounts : moved).map(tellAccount);
}

/** Parts of expressions without a name are passed over, as the sentences pass over them. */
function tellAccount(account: Account): ToldAccount {
  const { at, signal } = account;
  const told = account.steps.filter((step, index) => index === 0 || step.signal !== null);
  const steps = told.map((step) => ({ signal: step.text, at: step.at, span: step.span }));
  return { signal, at, lines: accountWords(account), steps };
}

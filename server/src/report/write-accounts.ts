// Accounts as text, each line the cause of the one before, and as JSON, the same as data.

import type { Account } from '../explain/account';
import { accountWords } from '../explain/account-words';
import { toolVersion } from './version';

/** Of several bits those at which something happened; all of them where at none. */
export function writeAccountsText(accounts: readonly Account[]): string {
  const moved = accounts.filter(({ outcome }) => outcome !== 'steady');
  const told = moved.length === 0 ? accounts : moved;
  return `${told.map((account) => accountWords(account).join('\n  ')).join('\n\n')}\n`;
}

export function writeAccountsJson(accounts: readonly Account[]): string {
  const worded = accounts.map((account) => ({ ...account, words: accountWords(account) }));
  return `${JSON.stringify({ foretick: toolVersion, accounts: worded }, null, 2)}\n`;
}

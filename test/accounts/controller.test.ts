// The account of a state register that reads two vectors: neighboring bits are told as one, kept as text read by eye.

import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { writeAccountsText } from '../../server/src/report/write-accounts';
import { studyOf, toEnd } from '../tools/report-of';

const folder = dirname(fileURLToPath(import.meta.url));

it('the wash controller leaves idle', async () => {
  const text = readFileSync(join(folder, '..', '..', 'examples', 'wash-controller.v'), 'utf8');
  const study = await studyOf([{ path: 'wash-controller.v', text }]);
  const accounts = toEnd(study.accounts('state', 50_000)) ?? [];
  await expect(writeAccountsText(accounts)).toMatchFileSnapshot(join(folder, 'controller.expected.txt'));
});

import { constants } from 'node:fs';
import { expect, it } from 'vitest';
import { type Access, firstReadOnly } from '../../../server/src/editor/front/writable';

/** Files that are there, and what may be done with them. */
const disk: Readonly<Record<string, number>> = {
  '/project/mine.v': constants.R_OK | constants.W_OK,
  '/project/theirs of old.v': constants.R_OK,
};
const access: Access = async (path, mode) => {
  const allowed = disk[path];
  if (allowed === undefined || (allowed & mode) !== mode) throw new Error('refused');
};

const changing = (...uris: readonly string[]) => ({
  changes: Object.fromEntries(uris.map((uri) => [uri, []])),
});

it('names the first file that is there and cannot be written', async () => {
  const readOnly = 'file:///project/theirs%20of%20old.v';
  expect(await firstReadOnly(changing('file:///project/mine.v', readOnly), access)).toBe(readOnly);
  expect(await firstReadOnly(changing('file:///project/mine.v'), access)).toBeNull();
});

it('leaves to the client what is on no disk of this machine', async () => {
  expect(await firstReadOnly(changing('untitled:Untitled-1', 'vault://depot/a.v'), access)).toBeNull();
  expect(await firstReadOnly(changing('file:///project/not-saved-yet.v'), access)).toBeNull();
});

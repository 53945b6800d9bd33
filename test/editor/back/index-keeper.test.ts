// The index of the workspace as files come and go, with a list of files and a disk that stand in for the client's.

import { expect, it } from 'vitest';
import { createFiles } from '../../../server/src/editor/back/files';
import { createIndexKeeper, indexLimits } from '../../../server/src/editor/back/index-keeper';
import { createScheduler } from '../../../server/src/editor/back/scheduler';

const folder = 'file:///p/';

function keeperOf(disk: Map<string, string>, isCut = false) {
  const files = createFiles(async (uri) => disk.get(uri) ?? null);
  const told: string[] = [];
  const notices: string[] = [];
  const keeper = createIndexKeeper({
    files,
    scheduler: createScheduler({ now: () => 0, turn: (go) => void setImmediate(go) }),
    list: async ({ folder: below }) => ({ files: [...disk.keys()].filter((uri) => uri.startsWith(below)), isCut }),
    changed: (names, others) => told.push(`${names.join(' ')}; ${others}`),
    notice: (words) => notices.push(words),
  });
  const units = async () =>
    (await keeper.ready(0)).units().map(({ unit, uri }) => `${unit.name} ${uri.slice(folder.length)}`);
  return { files, keeper, notices, told, units };
}

const m = 'module m; endmodule';

it('holds what the folders hold, and nothing once they are left', async () => {
  const { keeper, told, units } = keeperOf(
    new Map([
      [`${folder}a.v`, m],
      [`${folder}b/c.sv`, 'package q; endpackage'],
    ]),
  );
  expect(await units()).toEqual([]);
  keeper.hearFolders(['file:///p']);
  expect(await units()).toEqual(['m a.v', 'q b/c.sv']);
  expect(told).toEqual(['m q; other files']);
  keeper.hearFolders([]);
  expect(await units()).toEqual([]);
});

it('follows files, and tells which names have moved', async () => {
  const disk = new Map([[`${folder}a.v`, m]]);
  const { files, keeper, told, units } = keeperOf(disk);
  const change = (uri: string) => {
    files.hearChanged([uri]);
    keeper.hearChanged([uri]);
  };
  keeper.hearFolders([folder]);
  await units();
  disk.set(`${folder}a.v`, 'module n; endmodule');
  change(`${folder}a.v`);
  expect(await units()).toEqual(['n a.v']);
  disk.set(`${folder}z.hex`, '0');
  change(`${folder}z.hex`);
  await units();
  disk.delete(`${folder}a.v`);
  change(`${folder}a.v`);
  expect(await units()).toEqual([]);
  expect(told).toEqual(['m; other files', 'm n; same files', '; other files', 'n; other files']);
  expect(keeper.listed()).toEqual([`${folder}z.hex`]);
  // Outside of the workspace nobody asked for it.
  disk.set('file:///q/a.v', m);
  change('file:///q/a.v');
  expect(await units()).toEqual([]);
});

it('holds an open document as it stands, wherever it is', async () => {
  const { files, keeper, units } = keeperOf(new Map([[`${folder}a.v`, m]]));
  keeper.hearFolders([folder]);
  files.hearText(`${folder}a.v`, 'module typed; endmodule');
  files.hearText('untitled:1', 'module fresh; endmodule');
  keeper.hearDocument(`${folder}a.v`);
  keeper.hearDocument('untitled:1');
  expect((await keeper.ready(0)).units().map(({ unit }) => unit.name)).toEqual(['typed', 'fresh']);
  files.hearClosed(`${folder}a.v`);
  files.hearClosed('untitled:1');
  keeper.hearDocument(`${folder}a.v`);
  keeper.hearDocument('untitled:1');
  expect(await units()).toEqual(['m a.v']);
});

it('knows the files below a folder that is gone', async () => {
  const disk = new Map(['a/x.v', 'a/b/y.hex', 'ab/z.v'].map((path) => [`${folder}${path}`, m]));
  const { keeper } = keeperOf(disk);
  keeper.hearFolders([folder]);
  await keeper.ready(0);
  expect(keeper.below(`${folder}a`)).toEqual([`${folder}a/x.v`, `${folder}a/b/y.hex`]);
  expect(keeper.below(`${folder}a/x.v`)).toEqual([]);
});

it('says once that there is more than it looks at', async () => {
  const { keeper, notices } = keeperOf(new Map([[`${folder}a.v`, m]]), true);
  keeper.hearFolders([folder]);
  await keeper.ready(0);
  keeper.hearChanged(null);
  await keeper.ready(0);
  expect(notices).toHaveLength(1);
  expect(keeper.isCut()).toBe(true);
});

it('looks at no more files than its limit, and leaves the others to a search by name', async () => {
  const many = Array.from({ length: indexLimits.files + 2 }, (_, number) => [`${folder}f${number}.hex`, ''] as const);
  const { keeper, notices } = keeperOf(new Map(many));
  keeper.hearFolders([folder]);
  await keeper.ready(0);
  expect(keeper.listed()).toHaveLength(indexLimits.files);
  expect(notices).toHaveLength(1);
});

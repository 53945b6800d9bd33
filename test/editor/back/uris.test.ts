import { expect, it } from 'vitest';
import { fileKey, folderUri, foldersUpward, rootOf, uriOfPath } from '../../../server/src/editor/back/uris';
import { includeCandidates } from '../../../server/src/syntax/includes';

it('one file has one key, however its address is escaped', () => {
  expect(fileKey('file:///c%3A/a%20b/x.v')).toBe(fileKey('file:///c:/a b/x.v'));
  expect(fileKey('file:///100%/x.v')).toBe('file:///100%/x.v');
});

it('folders stand one above another up to the root', () => {
  expect(foldersUpward('file:///project/rtl/a.v')).toEqual(['file:///project/rtl/', 'file:///project/', 'file:///']);
  expect(foldersUpward('vault://depot/a.v')).toEqual(['vault://depot/']);
  expect(foldersUpward('untitled:Untitled-1')).toEqual([]);
  expect(rootOf('untitled:Untitled-1')).toBeNull();
});

it('folders are written from the project file, or absolute', () => {
  expect(folderUri('file:///project/', 'inc')).toBe('file:///project/inc');
  expect(folderUri('file:///project/', '/opt/inc')).toBe('file:///opt/inc');
  expect(folderUri('file:///C:/project/', 'D:\\inc')).toBe('file:///D:/inc');
});

it('what a study looks for is an address again', () => {
  for (const document of ['file:///project/rtl/a.v', 'vault://depot/rtl/a.v']) {
    const root = rootOf(document) ?? '';
    const asked = includeCandidates(document, '../inc/b.vh', ['file:///elsewhere', 'vault://depot/lib']);
    const found = asked.map((path) => uriOfPath(path, document));
    expect(found[0]).toBe(document.includes('project') ? `${root}/project/inc/b.vh` : `${root}/inc/b.vh`);
  }
  expect(uriOfPath('/opt/b.vh', 'file:///project/a.v')).toBe('file:///opt/b.vh');
  expect(uriOfPath('b.vh', 'untitled:Untitled-1')).toBeNull();
});

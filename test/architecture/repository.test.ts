// The repository holds what it should at its top, and its files speak of the project alone.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { checkLock, checkTopLevel, checkWords } from './check-repository';

const root = fileURLToPath(new URL('../..', import.meta.url));
const tracked = execFileSync('git', ['ls-files', '-z'], { cwd: root, encoding: 'utf8' }).split('\0').filter(Boolean);
const read = (path: string) => readFileSync(`${root}${path}`, 'utf8');

describe('the repository', () => {
  test('is read by this test', () => expect(tracked).toContain('package.json'));
  test('holds only known names at its top', () => expect(checkTopLevel(tracked)).toEqual([]));
  test('speaks of the project alone', () => {
    const present = tracked.filter((path) => existsSync(`${root}${path}`));
    expect(present.flatMap((path) => checkWords(path, read(path)))).toEqual([]);
  });
  test('locks packages by content, not by host', () => {
    expect(checkLock(JSON.parse(read('package-lock.json')))).toEqual([]);
  });
});

describe('each rule can fail', () => {
  test('a stray name at the top', () => {
    expect(checkTopLevel(['README.md', 'server/src/a.ts', 'notes.txt'])).toEqual([
      'notes.txt: not a name of the top level',
    ]);
  });
  // Put together here, since this file is read by the same test.
  test.each([
    ['', 'work', 'main/a.v'],
    ['file://', 'home', 'someone/a.v'],
    ['in ', 'tmp', 'notes'],
    ['"', 'root', 'x"'],
  ])('a place on one machine: %s(%s)', (before, folder, after) => {
    const text = `${before}/${folder}/${after}`;
    expect(
      checkWords(
        'a.md',
        `first line
${text}`,
      ),
    ).toEqual(['a.md:2: names a place on one machine']);
  });
  test('a host of a registry', () => {
    expect(checkWords('a.json', ['https://registry', 'example', 'org/x'].join('.'))).toEqual([
      `a.json:1: names a registry's host`,
    ]);
  });
  test.each(['server/work/a.ts', './tmp/a', 'a framework/home page', 'https://example.org/home/page'])(
    'not %s',
    (text) => {
      expect(checkWords('a.md', text)).toEqual([]);
    },
  );
  test('a binary file says nothing', () => expect(checkWords('a.bin', `\0/${'work'}/a`)).toEqual([]));
  test('a lock with a host, or without a digest', () => {
    const lock = { packages: { '': {}, a: { resolved: 'x', integrity: 'y' }, b: {}, c: { integrity: 'y' } } };
    expect(checkLock(lock)).toEqual(['a: the lock names a host', 'b: the lock has no digest']);
  });
});

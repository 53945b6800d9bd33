// What may stand in the repository: the names at its top, and what no file of it may say. Pure functions,
// so that each rule is tested on inputs of its own.

const topLevelNames: readonly string[] = [
  'README.md',
  'DEVELOPERS.md',
  'CHANGELOG.md',
  'LICENSE',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
  'client',
  'server',
  'webview',
  'syntaxes',
  'test',
  'examples',
  '.ci',
  '.gitignore',
  '.vscodeignore',
];

interface Banned {
  readonly pattern: RegExp;
  readonly why: string;
}

const banned: readonly Banned[] = [
  { pattern: /(?<![\w.)}])\/(?:work|root|home|Users|tmp)\/\w/, why: 'names a place on one machine' },
  { pattern: /\bregistry\.[a-z.-]+\.(?:com|org|net|io)\b/, why: "names a registry's host" },
];

/** Sentences about paths, relative to the repository, that do not belong at its top. */
export function checkTopLevel(paths: readonly string[]): string[] {
  const names = new Set(paths.map((path) => path.split('/', 1)[0] ?? path));
  return [...names]
    .filter((name) => !topLevelNames.includes(name))
    .map((name) => `${name}: not a name of the top level`);
}

/** Sentences about what one file says; a binary file says nothing. */
export function checkWords(path: string, text: string): string[] {
  if (text.includes('\0')) return [];
  const lines = text.split('\n');
  return lines.flatMap((line, index) =>
    banned.filter(({ pattern }) => pattern.test(line)).map(({ why }) => `${path}:${index + 1}: ${why}`),
  );
}

/** Packages of the lock file that are bound to the host they were once fetched from, or not to their content. */
export function checkLock(lock: { readonly packages: Readonly<Record<string, LockedPackage>> }): string[] {
  return Object.entries(lock.packages).flatMap(([name, { resolved, integrity }]) => {
    if (name === '') return [];
    return [
      ...(resolved === undefined ? [] : [`${name}: the lock names a host`]),
      ...(integrity === undefined ? [`${name}: the lock has no digest`] : []),
    ];
  });
}

interface LockedPackage {
  readonly resolved?: string;
  readonly integrity?: string;
}

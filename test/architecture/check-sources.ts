// Holds a set of source files to the table of rooms. A pure function of (path → text), so that each rule is
// tested on small sources of its own. Every sentence it returns is one broken rule, with file and line.
import { posix } from 'node:path';
import { doors, entryPointLines, entryPoints, openRooms, roomOf, rooms } from './rooms';
import { type Import, readFacts, type SourceFacts } from './source-facts';

/** Text of each file by its path relative to the repository, with `/`. */
export type Sources = ReadonlyMap<string, string>;

export function checkSources(sources: Sources): string[] {
  const facts = new Map([...sources].map(([path, text]) => [path, readFacts(path, text)]));
  return [
    ...[...facts].flatMap(([path, found]) => checkFile(path, found, sources)),
    ...[...sources].flatMap(([path, text]) => checkLength(path, text)),
    ...checkCycles(importGraph(facts, sources)),
  ];
}

function checkFile(path: string, facts: SourceFacts, sources: Sources): string[] {
  const room = roomOf(path);
  if (room === null) return [`${path}: in no room of the table`];
  return [
    ...facts.imports.flatMap((found) => checkImport(path, room, found, sources)),
    ...facts.reExports.map(({ line }) => `${path}:${line}: re-exports; import it from its own file`),
    ...(rooms[room]?.isCore ? facts.outsideUses : []).map(
      ({ what, line }) => `${path}:${line}: uses ${what}, which the core must not`,
    ),
  ];
}

function checkImport(path: string, room: string, found: Import, sources: Sources): string[] {
  const complain = (what: string) => [`${path}:${found.line}: ${what}`];
  if (!found.specifier.startsWith('.')) {
    return mayUsePackage(path, room, found) ? [] : complain(`must not import ${found.specifier}${asValue(found)}`);
  }
  const target = resolveImport(path, found.specifier, sources);
  if (target === null) return complain(`imports ${found.specifier}, which is no source file`);
  const targetRoom = roomOf(target);
  if (targetRoom === null || mayUseRoom(room, targetRoom, found)) return [];
  return complain(`${room} must not import ${targetRoom}${asValue(found)}`);
}

function asValue(found: Import): string {
  return found.isTypeOnly ? '' : ' as a value';
}

function mayUsePackage(path: string, room: string, { specifier, isTypeOnly }: Import): boolean {
  const name = packageName(specifier);
  const door = doors[name];
  if (door !== undefined && door !== path) return false;
  if (rooms[room]?.packages?.includes(name)) return true;
  return isTypeOnly && rooms[room]?.typesOfPackages?.includes(name) === true;
}

function packageName(specifier: string): string {
  if (specifier.startsWith('node:')) return 'node:*';
  return specifier.split('/', specifier.startsWith('@') ? 2 : 1).join('/');
}

function mayUseRoom(room: string, target: string, { isTypeOnly }: Import): boolean {
  if (room === target || rooms[room]?.uses.includes(target)) return true;
  if (openRooms.includes(target)) return !openRooms.includes(room);
  return isTypeOnly && rooms[room]?.usesTypesOf?.includes(target) === true;
}

/** The file that a relative import means: written without extension, or a JSON file by its full name. */
export function resolveImport(from: string, specifier: string, sources: Sources): string | null {
  const target = posix.join(posix.dirname(from), specifier);
  const candidates = target.endsWith('.json') ? [target] : [`${target}.ts`];
  return candidates.find((candidate) => sources.has(candidate)) ?? null;
}

function checkLength(path: string, text: string): string[] {
  const lines = text.trimEnd().split('\n').length;
  if (!entryPoints.includes(path) || lines <= entryPointLines) return [];
  return [`${path}: ${lines} lines; an entry point only wires, in at most ${entryPointLines}`];
}

type Graph = ReadonlyMap<string, readonly string[]>;

/** Imports of types count: two files that need each other's types are one thought in two files. */
function importGraph(facts: ReadonlyMap<string, SourceFacts>, sources: Sources): Graph {
  const targets = (path: string, found: SourceFacts) =>
    [...found.imports, ...found.reExports].flatMap(({ specifier }) =>
      specifier.startsWith('.') ? (resolveImport(path, specifier, sources) ?? []) : [],
    );
  return new Map([...facts].map(([path, found]) => [path, targets(path, found)]));
}

/** One sentence for each import that closes a circle. */
function checkCycles(graph: Graph): string[] {
  const complaints: string[] = [];
  const finished = new Set<string>();
  const walk = (path: string, trail: readonly string[]): void => {
    if (finished.has(path)) return;
    const start = trail.indexOf(path);
    if (start >= 0) {
      complaints.push(`import cycle: ${[...trail.slice(start), path].join(' -> ')}`);
      return;
    }
    for (const target of graph.get(path) ?? []) walk(target, [...trail, path]);
    finished.add(path);
  };
  for (const path of graph.keys()) walk(path, []);
  return complaints;
}

// The rooms of the source and what each may import: the table that the import test holds the folders to.
// A room is a folder of `server/src`, a file at its root, or one of the two other programs. `text/` and
// `budget.ts` are open to every room but themselves.

export interface Room {
  /** Rooms it may import from, besides itself, `text` and `budget.ts`. */
  readonly uses: readonly string[];
  /** Rooms of which it may import types alone. */
  readonly usesTypesOf?: readonly string[];
  /** Packages it may import; `node:*` stands for every module of Node. */
  readonly packages?: readonly string[];
  /** Packages of which it may import types alone. */
  readonly typesOfPackages?: readonly string[];
  /** The core runs anywhere: no file, clock, randomness, promise, Node or editor type. */
  readonly isCore: boolean;
}

/** Open to every room; these themselves import nothing of ours. */
export const openRooms: readonly string[] = ['text', 'budget.ts'];

const stages = ['syntax', 'netlist', 'elaborate', 'clocks', 'delays', 'predict', 'hazards'];
const core = (uses: readonly string[], more: Partial<Room> = {}): Room => ({ uses, isCore: true, ...more });
const edge = (uses: readonly string[], packages: readonly string[], more: Partial<Room> = {}): Room => ({
  uses,
  packages,
  isCore: false,
  ...more,
});

export const rooms: Readonly<Record<string, Room>> = {
  text: core([]),
  'budget.ts': core([]),
  syntax: core([], { typesOfPackages: ['web-tree-sitter'] }),
  netlist: core([]),
  elaborate: core(['syntax', 'netlist']),
  clocks: core(['netlist']),
  delays: core(['netlist']),
  cycles: core(['netlist']),
  predict: core(['netlist', 'clocks', 'delays', 'cycles']),
  hazards: core(['netlist', 'clocks', 'delays', 'predict']),
  explain: core(stages),
  report: core([...stages, 'explain'], { usesTypesOf: ['cycles'] }),
  drawing: core([], { usesTypesOf: ['report'] }),
  cures: core([...stages, 'explain', 'report', 'drawing']),

  // The edge of the server. grammar.ts alone loads the parser, module-compiler.ts alone knows WebAssembly.
  'module-compiler.ts': edge([], [], { usesTypesOf: ['cycles'] }),
  'grammar.ts': edge(['syntax'], ['web-tree-sitter', 'node:*']),
  editor: edge(
    ['report', 'drawing', 'cures', 'grammar.ts', 'module-compiler.ts'],
    ['vscode-languageserver', 'node:*'],
    {
      usesTypesOf: ['syntax', 'cycles'],
    },
  ),
  cli: edge(['report', 'drawing', 'cures', 'editor', 'grammar.ts', 'module-compiler.ts'], ['commander', 'node:*']),
  'main.ts': edge(['editor', 'grammar.ts'], ['vscode-languageserver', 'node:*']),

  // The other two programs. Client and panel talk in the messages that editor/ defines.
  client: edge([], ['vscode', 'vscode-languageclient', 'node:*'], { usesTypesOf: ['report', 'editor'] }),
  webview: edge(['drawing'], ['@vscode/webview-ui-toolkit'], { usesTypesOf: ['report', 'editor'] }),
};

/** Packages behind one door: the only file that may import them. */
export const doors: Readonly<Record<string, string>> = {
  '@vscode/webview-ui-toolkit': 'webview/src/controls.ts',
};

/** Entry points only wire. */
export const entryPoints: readonly string[] = [
  'client/src/extension.ts',
  'server/src/main.ts',
  'server/src/cli/main.ts',
];
export const entryPointLines = 60;

/** The room of a file, or null where the table knows none. `path` is relative to the repository, with `/`. */
export function roomOf(path: string): string | null {
  const name = roomName(path);
  return name !== null && Object.hasOwn(rooms, name) ? name : null;
}

function roomName(path: string): string | null {
  const [program, source, first] = path.split('/');
  if (source !== 'src' || first === undefined) return null;
  if (program === 'client' || program === 'webview') return program;
  return program === 'server' ? first : null;
}

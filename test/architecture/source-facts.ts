// What one source file says that matters to the architecture: its imports, and the uses of what a core file
// must not use. Read by the compiler's own parser, so comments, strings and property names never count.
import ts from 'typescript';

export interface Import {
  readonly specifier: string;
  /** Erased by the compiler: `import type`. */
  readonly isTypeOnly: boolean;
  readonly line: number;
}

export interface SourceFacts {
  readonly imports: readonly Import[];
  /** `export … from`: a thing has one home. */
  readonly reExports: readonly Import[];
  /** What a core file must not use: clock, randomness, promises, the platform, the locale. */
  readonly outsideUses: readonly { readonly what: string; readonly line: number }[];
}

const outsideNames = new Set([
  'Date',
  'performance',
  'Promise',
  'globalThis',
  'process',
  'console',
  'require',
  'Buffer',
  'fetch',
  'Intl',
  'setTimeout',
  'setInterval',
  'setImmediate',
  'queueMicrotask',
  'window',
  'document',
  'eval',
]);

/** Methods whose answer depends on chance or on the machine's locale. */
const outsideMethods = new Set(['random', 'localeCompare', 'toLocaleString', 'toLocaleLowerCase', 'toLocaleUpperCase']);

export function readFacts(path: string, text: string): SourceFacts {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
  const nodes = allNodes(file);
  const declared = new Set(nodes.flatMap(declaredName));
  const lineOf = (node: ts.Node) => file.getLineAndCharacterOfPosition(node.getStart(file)).line + 1;
  return {
    imports: nodes.flatMap((node) => importOf(node, lineOf(node))),
    reExports: nodes.flatMap((node) => reExportOf(node, lineOf(node))),
    outsideUses: nodes.flatMap((node) => {
      const what = outsideUse(node, declared);
      return what === null ? [] : [{ what, line: lineOf(node) }];
    }),
  };
}

function allNodes(file: ts.SourceFile): ts.Node[] {
  const nodes: ts.Node[] = [];
  const visit = (node: ts.Node): void => {
    nodes.push(node);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return nodes;
}

function importOf(node: ts.Node, line: number): Import[] {
  if (ts.isImportDeclaration(node) && ts.isStringLiteral(node.moduleSpecifier)) {
    return [{ specifier: node.moduleSpecifier.text, isTypeOnly: node.importClause?.isTypeOnly === true, line }];
  }
  if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument) && ts.isStringLiteral(node.argument.literal)) {
    return [{ specifier: node.argument.literal.text, isTypeOnly: true, line }];
  }
  const [argument] = isDynamicImport(node) ? node.arguments : [];
  return argument !== undefined && ts.isStringLiteralLike(argument)
    ? [{ specifier: argument.text, isTypeOnly: false, line }]
    : [];
}

function reExportOf(node: ts.Node, line: number): Import[] {
  if (!ts.isExportDeclaration(node) || node.moduleSpecifier === undefined) return [];
  return ts.isStringLiteral(node.moduleSpecifier)
    ? [{ specifier: node.moduleSpecifier.text, isTypeOnly: node.isTypeOnly, line }]
    : [];
}

function outsideUse(node: ts.Node, declared: ReadonlySet<string>): string | null {
  if (node.kind === ts.SyntaxKind.AsyncKeyword) return 'async';
  if (node.kind === ts.SyntaxKind.AwaitKeyword || ts.isAwaitExpression(node)) return 'await';
  if (isDynamicImport(node)) return 'import()';
  if (ts.isPropertyAccessExpression(node) && outsideMethods.has(node.name.text)) return node.name.text;
  if (!ts.isIdentifier(node) || !outsideNames.has(node.text) || isPropertyName(node)) return null;
  // `process` is also a word of Verilog: a name that the file declares is its own. The compiler, which
  // has no Node types in the core, refuses the global of that name anyhow.
  return declared.has(node.text) ? null : node.text;
}

function isDynamicImport(node: ts.Node): node is ts.CallExpression {
  return ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword;
}

function isPropertyName(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent) || ts.isQualifiedName(parent)) {
    return (ts.isPropertyAccessExpression(parent) ? parent.name : parent.right) === node;
  }
  if (ts.isBindingElement(parent)) return parent.propertyName === node;
  const isMember = ts.isPropertyAssignment(parent) || ts.isPropertySignature(parent) || ts.isMethodSignature(parent);
  return isMember && parent.name === node;
}

function declaredName(node: ts.Node): string[] {
  const declares =
    ts.isVariableDeclaration(node) ||
    ts.isParameter(node) ||
    ts.isBindingElement(node) ||
    ts.isFunctionDeclaration(node) ||
    ts.isImportSpecifier(node);
  return declares && node.name !== undefined && ts.isIdentifier(node.name) ? [node.name.text] : [];
}

// Interfaces and packages in the form of a module: the same text, offset for offset, with the unit's keywords exchanged
// and what no module holds (modports, exports) read and left blank. So everything that reads and mends modules reads them.

import { readModports } from './modports';
import { atOf, type ItemsRead, namedAt, unexpected } from './module-words';
import type { Remark } from './remark';
import type { ImportItem, Item } from './tables';
import { nextToken, type Token, wordOf } from './tokens';

export interface ModuleForm {
  readonly text: string;
  /** Modports and exports. */
  readonly items: readonly Item[];
  readonly remarks: readonly Remark[];
}

export function moduleForm(text: string, what: 'interface' | 'package'): ModuleForm {
  const tokens = tokensOf(text);
  const closing = tokens.filter((token) => wordOf(text, token) === `end${what}`).at(-1);
  const stretches: Stretch[] = [{ ...tokens[0], text: 'module' }];
  const items: Item[] = [];
  const remarks: Remark[] = [];
  const own = what === 'interface' ? 'modport' : 'export';
  for (let index = 1; index < tokens.length; index += 1) {
    if (wordOf(text, tokens[index]) !== own || tokens[index].kind !== 'keyword') continue;
    const line = lineFrom(text, tokens, index);
    if (own === 'export' && line[1]?.kind === 'string') continue;
    const read = own === 'modport' ? readModports(text, line) : readExports(text, line);
    items.push(...read.items);
    remarks.push(...read.remarks);
    stretches.push({ start: line[0].start, end: line[line.length - 1].end, text: '' });
    index += line.length - 1;
  }
  if (closing !== undefined) stretches.push({ ...closing, text: 'endmodule' });
  return { text: replaced(text, stretches), items, remarks };
}

interface Stretch {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  for (let token = nextToken(text, 0); token.kind !== 'end'; token = nextToken(text, token.end)) tokens.push(token);
  return tokens;
}

/** Up to the semicolon, or before a word that no such line holds. */
function lineFrom(text: string, tokens: readonly Token[], first: number): readonly Token[] {
  let last = first;
  while (last + 1 < tokens.length && wordOf(text, tokens[last]) !== ';' && !endsLine(text, tokens[last + 1])) last += 1;
  return tokens.slice(first, last + 1);
}

function endsLine(text: string, token: Token): boolean {
  return token.kind === 'keyword' && neverInModport.has(wordOf(text, token));
}

/** Every stretch keeps its length, so that no place moves; line ends stay, so that none leaves its line. */
function replaced(text: string, stretches: readonly Stretch[]): string {
  let done = 0;
  let result = '';
  for (const { start, end, text: instead } of stretches) {
    const blank = text.slice(start + instead.length, end).replace(/[^\r\n]/g, ' ');
    result += text.slice(done, start) + instead + blank;
    done = end;
  }
  return result + text.slice(done);
}

/** export p::x, q::*; or export *::*; (IEEE 1800-2017 26.6). */
function readExports(text: string, line: readonly Token[]): ItemsRead {
  const items: ImportItem[] = [];
  for (let index = 1; index + 2 < line.length; index += 4) {
    const [from, mark, name] = line.slice(index, index + 3);
    if (wordOf(text, mark) !== '::') return { items, remarks: [unexpected(text, from)] };
    items.push({
      kind: 'export',
      at: atOf(from, name),
      from: wordOf(text, from) === '*' ? null : namedAt(text, from),
      name: wordOf(text, name) === '*' ? null : namedAt(text, name),
    });
  }
  return { items, remarks: [] };
}

const neverInModport: ReadonlySet<string> = new Set([
  'always',
  'always_comb',
  'always_ff',
  'always_latch',
  'assign',
  'endinterface',
  'endpackage',
  'generate',
  'initial',
  'localparam',
  'modport',
  'parameter',
  'typedef',
]);

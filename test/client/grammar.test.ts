// The coloring of the text: the grammars are well formed, know every reserved word, and tell the parts of a module apart.
// Reserved words: IEEE 1364-2005 annex B, IEEE 1800-2017 annex B, as listed in server/src/syntax/keywords.ts.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { isAddedKeyword, isKeyword } from '../../server/src/syntax/keywords';
import { type Grammar, type Rule, tokenize } from './tokenize';

const root = fileURLToPath(new URL('../..', import.meta.url));
const read = (file: string) => readFileSync(`${root}${file}`, 'utf8');
const grammars = {
  verilog: JSON.parse(read('syntaxes/verilog.tmLanguage.json')) as Grammar & { readonly scopeName: string },
  systemverilog: JSON.parse(read('syntaxes/systemverilog.tmLanguage.json')) as Grammar & { readonly scopeName: string },
};
const languages = ['verilog', 'systemverilog'] as const;
const listedWords = [...new Set(read('server/src/syntax/keywords.ts').match(/\b[a-z_][a-z_0-9]*\b/g))].filter(
  isKeyword,
);
const reservedScope = /^(?:keyword|storage|support\.type)\b/;

const scopesOf = (language: 'verilog' | 'systemverilog', text: string) =>
  tokenize(grammars[language], text).map((token) => [token.text.trim(), token.scope]);

describe.each(languages)('the grammar of %s', (language) => {
  const rules = allRules(grammars[language]);

  it('has patterns that compile and includes that exist', () => {
    for (const { begin, end, include, match } of rules) {
      for (const pattern of [match, begin, end])
        if (pattern !== undefined) expect(() => new RegExp(pattern)).not.toThrow();
      if (include !== undefined) expect(Object.keys(grammars[language].repository)).toContain(include.slice(1));
    }
  });

  it('names every scope in its own language', () => {
    const names = rules.flatMap(({ name }) => name ?? []);
    expect(names.filter((name) => name.split('.').at(-1) !== language)).toEqual([]);
    expect(grammars[language].scopeName).toBe(`source.${language}`);
  });

  it('tells the parts of a module apart', () => {
    const text = "module m(input wire [3:0] a); // note\n  always @(posedge clk) q <= 4'hF & ~a;";
    expect(scopesOf(language, text)).toEqual([
      ['module', 'storage.type'],
      ['m', 'entity.name.type.module'],
      ['(', null],
      ['input', 'storage.modifier'],
      ['wire', 'storage.type'],
      ['[', null],
      ['3', 'constant.numeric'],
      [':', 'keyword.operator'],
      ['0', 'constant.numeric'],
      ['] a);', null],
      ['//', 'punctuation.definition.comment'],
      ['note', 'comment.line.double-slash'],
      ['always', 'keyword.control'],
      ['@', 'keyword.operator'],
      ['(', null],
      ['posedge', 'keyword.control.edge'],
      ['clk) q', null],
      ['<=', 'keyword.operator'],
      ["4'hF", 'constant.numeric'],
      ['&', 'keyword.operator'],
      ['~', 'keyword.operator'],
      ['a;', null],
    ]);
  });

  it('ends a comment where it ends, and a string at the end of its line', () => {
    expect(scopesOf(language, '/* a\n b */ wire "c\nreg')).toEqual([
      ['/*', 'punctuation.definition.comment.begin'],
      ['a', 'comment.block'],
      ['b', 'comment.block'],
      ['*/', 'punctuation.definition.comment.end'],
      ['wire', 'storage.type'],
      ['"', 'punctuation.definition.string.begin'],
      ['c', 'string.quoted.double'],
      ['reg', 'storage.type'],
    ]);
  });

  it.each([
    ['`define WIDTH 8', 'WIDTH', 'entity.name.function.preprocessor'],
    ['`WIDTH', 'WIDTH', 'entity.name.function.preprocessor'],
    ['`timescale 1ns/1ps', 'timescale', 'keyword.control.directive'],
    ['`timescale 1ns/1ps', '1ns', 'constant.numeric'],
    ["8'sb1010_xz?z", "8'sb1010_xz?z", 'constant.numeric'],
    ["12'd 12", "12'd 12", 'constant.numeric'],
    ["'hff", "'hff", 'constant.numeric'],
    ['1.5e-9', '1.5e-9', 'constant.numeric'],
    ['$clog2(W)', '$clog2', 'support.function.system'],
    ['\\bus+index next', '\\bus+index', 'variable.other.escaped'],
    ['(* keep = "true" *)', 'keep', 'entity.other.attribute-name'],
    ['begin : outer', 'outer', 'entity.name.section'],
    ['u1(.d (q))', 'd', 'variable.parameter'],
    ['$display("%0d\\n")', '%0d', 'constant.other.placeholder'],
    ['always @(*) y = a;', '=', 'keyword.operator'],
  ])('reads %s', (text, part, scope) => {
    expect(scopesOf(language, text)).toContainEqual([part, scope]);
  });

  it('takes a reserved word inside a longer name for a name', () => {
    expect(scopesOf(language, 'reg_next wire2 my_module always_on$')).toEqual([
      ['reg_next wire2 my_module always_on$', null],
    ]);
  });

  it('knows the reserved words of its standard and no others', () => {
    const expected = listedWords.filter((word) => language === 'systemverilog' || !isAddedKeyword(word));
    const isReserved = (word: string) => reservedScope.test(tokenize(grammars[language], word)[0].scope ?? '');
    expect(expected.length).toBeGreaterThan(100);
    expect(expected.filter((word) => !isReserved(word))).toEqual([]);
    expect(listedWords.filter((word) => isReserved(word) && !expected.includes(word))).toEqual([]);
    expect(wordsNamed(rules).filter((word) => !isKeyword(word))).toEqual([]);
  });
});

describe('the language configuration', () => {
  const configuration = JSON.parse(read('syntaxes/language-configuration.json'));
  const { increaseIndentPattern, decreaseIndentPattern } = configuration.indentationRules;
  const word = new RegExp(configuration.wordPattern, 'g');

  it('takes names, macros, system functions and escaped names for words', () => {
    expect('a_1 <= `W + $clog2(\\b+c );'.match(word)).toEqual(['a_1', '`W', '$clog2', '\\b+c']);
  });

  it.each([
    'begin',
    'always @(posedge clk) begin',
    'begin : outer',
    'module m;',
    'case (state)',
    'module m (',
    'begin // note',
    'module m ( // ports',
  ])('indents after %s', (line) => expect(line).toMatch(new RegExp(increaseIndentPattern)));

  it.each(['a <= b;', '// begin', 'x = y; // begin', 'endmodule', 'end'])('does not indent after %s', (line) =>
    expect(line).not.toMatch(new RegExp(increaseIndentPattern)),
  );

  it.each(['end', '  endcase', 'endmodule', ');'])('moves %s out', (line) =>
    expect(line).toMatch(new RegExp(decreaseIndentPattern)),
  );

  it('leaves a name that begins with end where it is', () => {
    expect('end_count <= 1;').not.toMatch(new RegExp(decreaseIndentPattern));
  });
});

function allRules(grammar: Grammar): readonly Rule[] {
  const walk = (rule: Rule): readonly Rule[] => [rule, ...(rule.patterns ?? []).flatMap(walk)];
  return [...grammar.patterns, ...Object.values(grammar.repository)].flatMap(walk);
}

/** The words of the alternatives `\b(?:a|b|c)\b` that color reserved words. */
function wordsNamed(rules: readonly Rule[]): readonly string[] {
  const lists = rules.filter(
    ({ name }) => name !== undefined && reservedScope.test(name) && !name.includes('operator'),
  );
  return lists.flatMap(({ match }) => /^\\b\(\?:([\w|]+)\)\\b$/.exec(match ?? '')?.[1].split('|') ?? []);
}

import { readFileSync } from 'node:fs';
import type { MarkupContent } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { type HoverOptions, hover } from '../../../server/src/editor/features/hover';
import { covered, document, open, run } from './caret';

const withPictures: HoverOptions = { format: 'markdown', pictures: 'shown' };
const plain: HoverOptions = { format: 'plaintext', pictures: 'left out' };

async function card(marked: string, options = withPictures, more: Readonly<Record<string, string>> = {}) {
  const { caret, study, text } = await open(marked, more);
  const found = run(hover(study, document, caret, options));
  const { kind, value } = (found?.contents ?? { kind: 'none', value: '' }) as MarkupContent;
  return { kind, value, range: found?.range === undefined ? '' : covered(text, found.range) };
}

/** Plain text, line by line. */
async function told(marked: string, more: Readonly<Record<string, string>> = {}): Promise<readonly string[]> {
  return (await card(marked, plain, more)).value.split('\n').filter((line) => line !== '');
}

function pictureIn(markdown: string): string {
  const [, code = ''] = /!\[[^\]]*\]\(data:image\/svg\+xml;base64,([A-Za-z0-9+/=]*)\)/.exec(markdown) ?? [];
  return Buffer.from(code, 'base64').toString('utf8');
}

/** The example with the caret before the nth `word`. */
function example(name: string, word: string, occurrence = 0): string {
  const text = readFileSync(new URL(`../../../examples/${name}.v`, import.meta.url), 'utf8');
  const code = text.indexOf('module');
  const places = [...text.matchAll(new RegExp(`\\b${word}\\b`, 'g'))].filter(({ index }) => index > code);
  const at = places[occurrence].index;
  return `${text.slice(0, at)}/*here*/${text.slice(at)}`;
}

describe('a hover on a register', () => {
  it('tells its declaration, who clocks it, and the account of its last change', async () => {
    expect(await told(example('ripple-counter', 'count', 4))).toEqual([
      'output reg  [3:0] count,',
      'count[0] samples at the falling edge of bottle; as driven it repeats every 2 periods of bottle',
      'count[1] samples at the falling edge of count[0], 1 flip-flop behind the root clock bottle (stage 2); as driven it repeats every 4 periods of bottle',
      'count[2] samples at the falling edge of count[1], 2 flip-flops behind the root clock bottle (stage 3); as driven it repeats every 8 periods of bottle',
      'count[3] samples at the falling edge of count[2], 3 flip-flops behind the root clock bottle (stage 4); as driven it repeats every 16 periods of bottle',
      'count[0] is a clock derived from bottle, as driven at 25 MHz: it clocks 1 register',
      'and 2 more like it',
      'count[0] rose at 341 ns because its clock bottle fell at 340 ns (line 17)',
      '  bottle fell at 340 ns, as driven',
    ]);
  });

  it('says why it never changes', async () => {
    const lines = await told(
      'module m(input clk, rst, output reg /*here*/q);\n always @(posedge clk) if (rst) q <= 0; else q <= q;\nendmodule',
    );
    expect(lines.slice(1).join('\n')).toMatch(/it does not change before \d+ ns: at \d+ ns it kept its value because/);
  });

  it('tells of several instances what they share, and where they differ', async () => {
    const half = 'module half(input clk, output reg /*here*/q = 0);\n always @(negedge clk) q <= ~q;\nendmodule\n';
    const same = await told(`${half}module m(input c, d, output p, r);\n half u(c, p);\n half v(d, r);\nendmodule`);
    expect(same.slice(1, 3)).toEqual([
      'u.q samples at the falling edge of clk, which comes from c; as driven it repeats every 2 periods of c',
      'the same in all 2 instances',
    ]);
    const chained = await told(`${half}module m(input c, output p, r);\n half u(c, p);\n half v(p, r);\nendmodule`);
    expect(chained.filter((line) => line.includes('samples')).map((line) => line.slice(0, 3))).toEqual(['u.q', 'v.q']);
  });
});

describe('a hover on other names', () => {
  it('tells of a decoded output that it can pulse, and why it last changed', async () => {
    const lines = await told(example('ripple-counter', 'half_full'));
    expect(lines[1]).toBe('half_full is decoded from registers by logic, and can pulse where it should not');
    expect(lines[2]).toMatch(/^half_full fell at \d+ ns because count\[3\] fell/);
    expect(lines.at(-1)).toMatch(/^ {2}bottle fell at \d+ ns, as driven$/);
  });

  it('passes unnamed parts of expressions over', async () => {
    const lines = await told(example('wash-controller', 'motor'));
    expect(lines.filter((line) => line.includes('=='))).toEqual([]);
  });

  it('tells of inputs what is assumed of them', async () => {
    expect((await told(example('wash-controller', 'start')))[1]).toMatch(/^assumed: 1 \(at this level/);
    expect((await told(example('wash-controller', 'clk')))[1]).toBe(
      'clk is a root clock, as driven at 50 MHz: it clocks 3 registers',
    );
  });

  it('follows a wire to what drives it', async () => {
    expect((await told(example('divided-clock', 'slow')))[1]).toMatch(/^divider\[2\] fell at \d+ ns because/);
  });

  it('tells of a latch when it is open', async () => {
    const text = 'module m(input g, d, output reg /*here*/l);\n always @* if (g) l = d;\nendmodule';
    expect((await told(text))[1]).toBe('l is a latch, open while g is high');
  });

  it('tells the value of a parameter, and where instances differ', async () => {
    const part = 'module part #(parameter /*here*/N = 1)(input a);\nendmodule\n';
    const use = (first: number, second: number) =>
      `${part}module m(input a);\n part #(${first}) u(a);\n part #(${second}) v(a);\nendmodule`;
    expect((await told(use(3, 3)))[1]).toBe('N is 3');
    expect((await told(use(3, 4)))[1]).toBe('N differs by instance: 3 in u, 4 in v');
  });

  it('tells of a module what it holds, also where it is instantiated', async () => {
    expect(await told(example('ripple-counter', 'belt_counter'))).toEqual([
      'module belt_counter (',
      'belt_counter: 4 registers · 1 clock · ripple chain of 4 · counts up, modulo 16',
    ]);
    const url = 'file:///project/half.v';
    const half = 'module half(input clk, output reg q = 0);\n always @(negedge clk) q <= ~q;\nendmodule\n';
    expect(await told('module m(input c, output y);\n /*here*/half u(c, y);\nendmodule', { [url]: half })).toEqual([
      'module half(input clk, output reg q = 0);',
      'half: 1 register · 1 clock',
    ]);
  });

  it('has nothing to say of keywords, labels, comments and nothing', async () => {
    expect(await told('mod/*here*/ule m;\nendmodule')).toEqual([]);
    expect(await told('module m;\n initial begin : /*here*/label end\nendmodule')).toEqual([]);
    expect(await told('// /*here*/m\nmodule m;\nendmodule')).toEqual([]);
    expect(await told('')).toEqual([]);
  });

  it('covers the name it is about', async () => {
    expect((await card('module m(input c);\n wire w = /*here*/c;\nendmodule')).range).toBe('2 c');
    expect((await card('module m(input clk);\n wire w = cl/*here*/k;\nendmodule')).range).toBe('2 clk');
  });
});

describe('the card', () => {
  it('holds a picture where the client shows pictures', async () => {
    const marked = example('ripple-counter', 'count', 4);
    const { kind, value } = await card(marked);
    expect(kind).toBe('markdown');
    expect(pictureIn(value)).toMatch(/^<svg [\s\S]*count\[3\][\s\S]*<\/svg>/);
    expect((await card(marked, { format: 'markdown', pictures: 'left out' })).value).not.toContain('data:');
    expect((await card(marked, plain)).value).not.toMatch(/[\\`↳]|data:/);
  });

  // Editors cut a card at about 100,000 characters (seen in an editor, no standard says so).
  it('stays far below the size at which editors cut it', async () => {
    const bits = Array.from(
      { length: 16 },
      (_, bit) => ` always @(negedge ${bit === 0 ? 'clk' : `q[${bit - 1}]`}) q[${bit}] <= ~q[${bit}];\n`,
    );
    const text = `module m(input clk, output reg [15:0] /*here*/q);\n initial q = 0;\n${bits.join('')}endmodule`;
    expect((await card(text)).value.length).toBeLessThan(50_000);
  });

  it('shows hostile names as text alone', async () => {
    const names = [
      '<b>x</b>',
      '![i](http://x.y)',
      '`code`',
      '[a](b)',
      '"q\'',
      '**b**',
      '\u202etxet',
      '#h',
      '$(bug)',
      'www.x.y',
      '&lt;',
    ];
    for (const name of names) {
      const written = `\\${name} `;
      const text = `module m(input clk, output reg /*here*/${written}= 0);\n always @(posedge clk) ${written}<= ~${written};\nendmodule`;
      const { value } = await card(text);
      expect(value, name).not.toContain('\u202e');
      // Outside the fenced declaration no sign stands unguarded that begins markup.
      const prose = value.replace(/^(`{3,})verilog\n[\s\S]*?\n\1\n/, '').replace(/!\[.*?\]\(data:[^)]*\)/, '');
      expect(prose.replace(/\\[^A-Za-z0-9\s]/g, ''), name).not.toMatch(/[\\`*_[\]<>#!|~&$@]|http:\/|www\./);
      const picture = pictureIn(value);
      const tags = new Set([...picture.matchAll(/<\/?([a-z!?-]+)/gi)].map(([, tag]) => tag));
      expect(
        [...tags].every((tag) => ['svg', 'title', 'pattern', 'path', 'rect', 'text'].includes(tag)),
        name,
      ).toBe(true);
    }
  });

  it('fences a declaration that holds back ticks', async () => {
    const { value } = await card('`define W 4\nmodule m(input [`W-1:0] /*here*/a); // ```\nendmodule');
    expect(value).toMatch(/^````verilog\nmodule m\(input \[`W-1:0\] a\); \/\/ ```\n````\n/);
  });
});

describe('a hover on a macro', () => {
  it('tells its definition and what the use has become', async () => {
    const text =
      "`define SUM(x, y) \\\n  ((x) + \\\n   (y))\nmodule m(input [3:0] a, output [3:0] z);\n assign z = `S/*here*/UM(a, 4'd1);\nendmodule\n";
    expect(await told(text)).toEqual(['`define SUM(x, y) \\', '  ((x) + \\', '   (y))', "becomes ((a) + (4'd1))"]);
    expect((await card(text)).range).toBe('5 SUM');
  });

  it('ends where the use ends', async () => {
    const text =
      '`define TWO 2\n`define SAME(x) x\nmodule m;\n wire [1:0] a = `/*here*/TWO + (1), b = `SAME(1);\nendmodule\n';
    expect(await told(text)).toEqual(['`define TWO 2', 'becomes 2']);
    const same = text.replace('/*here*/', '').replace('`SAME(1)', '`/*here*/SAME(1)');
    expect(await told(same)).toEqual(['`define SAME(x) x', 'becomes 1']);
    expect(await told(text.replace('TWO +', 'TWO').replace('/*here*/', '/*here*/'))).toEqual([
      '`define TWO 2',
      'becomes 2',
    ]);
  });

  it('tells nothing of directives and of macros that nobody defines', async () => {
    expect(await told('`ti/*here*/mescale 1ns/1ps\nmodule m; endmodule')).toEqual([]);
    expect(await told('module m; wire [`W/*here*/:0] w; endmodule')).toEqual([]);
  });
});

describe('a hover on what is declared elsewhere', () => {
  it('tells the declaration of a module, a function and a parameter of a package', async () => {
    const child = { 'file:///project/child.v': 'module child #(parameter W = 1)(input a);\nendmodule\n' };
    expect(await told('module m(input a);\n chi/*here*/ld u(a);\nendmodule', child)).toEqual([
      'module child #(parameter W = 1)(input a);',
      'child: no registers',
    ]);
    const text = 'module m(output z);\n function f(input a); f = a; endfunction\n assign z = /*here*/f(1);\nendmodule';
    expect(await told(text)).toEqual(['function f(input a); f = a; endfunction']);
  });
});

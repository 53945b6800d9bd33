// Random bodies of processes, for tests: blocking and nonblocking assignments to whole variables, parts, bits at a
// variable index and concatenations, under if, case and loops, in named blocks that are left early, through functions and
// tasks. Every value read is known, no index leaves its range.

import fc from 'fast-check';

/** `x`, `y`, `z` are assigned with `=`, `n` with `<=`; the rest is read. Every loop counts with a variable of its own. */
export const declarations = `reg [3:0] x, y; reg [7:0] z; reg [3:0] n; reg [3:0] m [0:3]; reg g [1:2][0:1];
  function [3:0] mix(input [3:0] p, input signed [2:0] q);
    begin : w
      reg [3:0] t;
      t = p ^ q;
      if (p[0]) disable w;
      t = t + 4'd3;
    end
    mix = w.t;
  endfunction
  function signed [2:0] near;
    input [3:0] p;
    integer i;
    begin
      near = -1;
      for (i = 0; i < 4; i = i + 1) if (p[i]) begin near = i; disable near; end
    end
  endfunction
  function automatic [4:0] turned(input [4:0] p, input integer turns);
    if (turns == 0) turned = p; else turned = turned({p[3:0], p[4] ^ c}, turns - 1);
  endfunction
  task put(input [3:0] p, output [4:0] q);
    begin
      q = 0;
      if (p[1]) disable put;
      q = {p, c};
    end
  endtask
  task swap(inout [3:0] p, q);
    reg [3:0] t;
    begin
      t = p;
      p = q;
      q = t;
      n <= t;
    end
  endtask`;
export const inputs = ['a', 'b', 's', 'c'] as const;
export const inputWidths = { a: 4, b: 4, s: 2, c: 1 } as const;
export const variableWidths = {
  x: 4,
  y: 4,
  z: 8,
  n: 4,
  'm[0]': 4,
  'm[1]': 4,
  'm[2]': 4,
  'm[3]': 4,
  'g[1][0]': 1,
  'g[1][1]': 1,
  'g[2][0]': 1,
  'g[2][1]': 1,
} as const;

const plain = ['a', 'b', 's', 'c', 'a[s]', 'b[2:1]', "4'd5", '1', "2'b10"];
const assigned = [
  'x',
  'y',
  'z',
  'x[s]',
  'y[2]',
  'z[5:2]',
  'z[s +: 3]',
  'm[s]',
  'm[2][s]',
  'm[s][2:1]',
  'g[c + 1][s[0]]',
];

const blockingTargets = fc.constantFrom(
  'x',
  'y',
  'z',
  'x[1]',
  'y[3:2]',
  'z[6:1]',
  'x[s]',
  'z[s +: 2]',
  'z[7 - s]',
  '{x, y}',
  '{y[1], z[3:0]}',
  'z[s + 4 -: 3]',
  'm[s]',
  'm[1]',
  'm[s][3:2]',
  'm[3][s]',
  'm[a[1:0]][s]',
  'g[c + 1][s[1]]',
  '{g[2][c], m[s]}',
);
const nonblockingTargets = fc.constantFrom('n', 'n[2]', 'n[3:1]', 'n[s]');

/** `reads`: whether expressions may read what the body assigns. */
export const bodiesThat = ({ reads }: { readonly reads: 'anything' | 'inputs' }): fc.Arbitrary<string> =>
  fc.letrec<{ expression: string; statement: string; block: string }>((tie) => ({
    expression: fc.oneof(
      { depthSize: 'small', withCrossShrink: true },
      fc.constantFrom(...plain, ...(reads === 'anything' ? assigned : [])),
      fc
        .tuple(tie('expression'), fc.constantFrom('+', '-', '*', '&', '|', '^', '<<', '>>'), tie('expression'))
        .map(infix),
      fc.tuple(tie('expression'), fc.constantFrom('==', '!=', '<', '>=', '&&', '||'), tie('expression')).map(infix),
      fc
        .tuple(fc.constantFrom('~', '-', '!', '&', '|', '^'), tie('expression'))
        .map(([operator, operand]) => `(${operator}(${operand}))`),
      fc
        .tuple(tie('expression'), tie('expression'), tie('expression'))
        .map(([test, one, zero]) => `(${test} ? ${one} : ${zero})`),
      fc.tuple(tie('expression'), tie('expression')).map(([high, low]) => `(a + {${sized(high)}, ${sized(low)}})`),
      fc.tuple(tie('expression')).map(([value]) => `$signed(${sized(value)})`),
      fc.tuple(tie('expression'), tie('expression')).map(([one, two]) => `mix(${one}, ${two})`),
      fc.tuple(tie('expression')).map(([value]) => `near(${value})`),
      fc.tuple(tie('expression'), fc.nat(4)).map(([value, turns]) => `turned(${value}, ${turns})`),
    ),
    statement: fc.oneof(
      { depthSize: 'small', withCrossShrink: true },
      fc.tuple(blockingTargets, tie('expression')).map(([target, value]) => `${target} = ${value};`),
      fc.tuple(nonblockingTargets, tie('expression')).map(([target, value]) => `${target} <= ${value};`),
      fc
        .tuple(tie('expression'), tie('block'), tie('block'))
        .map(([test, one, zero]) => `if (${test}) ${one} else ${zero}`),
      fc.tuple(tie('expression'), tie('block')).map(([test, body]) => `if (${test}) ${body}`),
      fc
        .tuple(tie('block'), tie('block'), tie('block'))
        .map(([one, two, other]) => `case (s) 0: ${one} 1, 2: ${two} default: ${other} endcase`),
      fc
        .tuple(tie('expression'), tie('block'), tie('block'))
        .map(([test, one, two]) => `case (${test}) a: ${one} 4'd3: ${two} endcase`),
      fc.tuple(tie('block'), tie('block')).map(([one, two]) => `case (1'b1) a[0]: ${one} b[1]: ${two} endcase`),
      fc
        .tuple(tie('block'), tie('block'), fc.constantFrom('z', 'x'))
        .map(([one, two, letter]) => `case${letter} (s) 2'b1?: ${one} 2'b?1: ${two} endcase`),
      fc.tuple(fc.nat(3), tie('block')).map(([turns, body]) => `repeat (${turns}) ${body}`),
      fc
        .tuple(fc.nat(1e6), tie('block'), tie('expression'), tie('block'))
        .map(([id, before, test, after]) => `begin : b${id} ${before} if (${test}) disable b${id}; ${after} end`),
      fc.tuple(fc.nat(1e6), fc.constantFrom('each', 'all'), tie('expression'), tie('block')).map(
        ([id, name, test, body]) => `begin : all${id} integer i; for (i = 0; i < 3; i = i + 1) begin : each${id}
            ${body} if ((${test}) ^ a[i]) disable ${name}${id}; x[i] = b[i]; end end`,
      ),
      fc.tuple(tie('expression'), fc.constantFrom('x', 'z[5:2]')).map(([value, target]) => `put(${value}, ${target});`),
      ...(reads === 'anything' ? [fc.constantFrom('swap(x, y);', 'swap(z[4:1], x);')] : []),
      fc
        .tuple(fc.integer({ min: 1, max: 4 }), tie('block'))
        .map(
          ([turns, body]) =>
            `for (integer i = 0; i < ${turns}; i = i + 1) begin x[i] = ${reads === 'anything' ? 'x[i] ^ ' : ''}a[i]; ${body} end`,
        ),
    ),
    block: fc
      .array(tie('statement'), { minLength: 0, maxLength: 3, size: 'small' })
      .map((statements) => `begin ${statements.join(' ')} end`),
  })).block;

function infix([left, operator, right]: [string, string, string]): string {
  return `(${left} ${operator} ${right})`;
}

/** An unsized number may not stand in a concatenation. */
function sized(text: string): string {
  return text === '1' ? "1'b1" : `(${text} & 4'd15)`;
}

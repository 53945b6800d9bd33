// Expressions as the tables hold them. Precedence and association: IEEE 1364-2005 table 5-4 and 5.1.2.

import { describe, expect, test } from 'vitest';
import { moduleOf, readText } from '../tools/reading';
import { spell } from './spell';

async function read(text: string): Promise<string> {
  const module = await moduleOf(`module m; assign a = ${text}; endmodule`);
  const item = module.items[0];
  return item?.kind === 'assign' ? spell(item.value) : 'not read';
}

describe('operators', () => {
  test.each([
    // Each row puts an operator of one level of the table beside one of the next lower level.
    ['+a ** b', '((+a) ** b)'],
    ['a ** b * c', '((a ** b) * c)'],
    ['a * b ** c', '(a * (b ** c))'],
    ['a + b * c', '(a + (b * c))'],
    ['a << b + c', '(a << (b + c))'],
    ['a < b << c', '(a < (b << c))'],
    ['a == b < c', '(a == (b < c))'],
    ['a & b == c', '(a & (b == c))'],
    ['a ^ b & c', '(a ^ (b & c))'],
    ['a ~^ b & c', '(a ~^ (b & c))'],
    ['a | b ^ c', '(a | (b ^ c))'],
    ['a && b | c', '(a && (b | c))'],
    ['a || b && c', '(a || (b && c))'],
    ['a || b ? c : d', '((a || b) ? c : d)'],
    // All associate to the left, save the conditional, which associates to the right (5.1.2).
    ['a - b - c', '((a - b) - c)'],
    ['a ** b ** c', '((a ** b) ** c)'],
    ['a ? b : c ? d : e', '(a ? b : (c ? d : e))'],
    ['a ? b ? c : d : e', '(a ? (b ? c : d) : e)'],
    ['(a - (b - c))', '(a - (b - c))'],
    // 5.1.10: both spellings are one operator.
    ['a ^~ b', '(a ~^ b)'],
    ['^~ a', '(~^a)'],
  ])('%s', async (text, taken) => {
    expect(await read(text)).toBe(taken);
  });

  test.each([
    '+',
    '-',
    '*',
    '/',
    '%',
    '**',
    '==',
    '!=',
    '===',
    '!==',
    '==?',
    '!=?',
    '<',
    '<=',
    '>',
    '>=',
    '&&',
    '||',
    '&',
    '|',
    '^',
    '~^',
    '<<',
    '>>',
    '<<<',
    '>>>',
  ])('a %s b', async (operator) => {
    expect(await read(`a ${operator} b`)).toBe(`(a ${operator} b)`);
  });

  test.each(['+', '-', '!', '~', '&', '~&', '|', '~|', '^', '~^'])('%s a', async (operator) => {
    expect(await read(`${operator}a`)).toBe(`(${operator}a)`);
  });

  test('a reduction behind a binary operator', async () => {
    expect(await read('a & &b')).toBe('(a & (&b))');
    expect(await read('a | ~|b')).toBe('(a | (~|b))');
  });

  test('signs one behind the other are read although the grammar of A.8.3 asks for parentheses', async () => {
    expect(await read('!!a & ~~b')).toBe('((!(!a)) & (~(~b)))');
    expect(await read('- -a[3]')).toBe('(-(-a[3]))');
  });

  test('a chain of thousands', async () => {
    const text = await read(`a${' + a'.repeat(5000)}`);
    expect(text.startsWith('(((')).toBe(true);
    expect(text.match(/\+/g)).toHaveLength(5000);
  });
});

describe('operands', () => {
  test.each([
    ['a[3]', 'a[3]'],
    ['a[3:0]', 'a[3:0]'],
    ['a[i +: 4]', 'a[i +: 4]'],
    ['a[i -: 4]', 'a[i -: 4]'],
    ['m[i][3:0]', 'm[i][3:0]'],
    ['m[i][j][k]', 'm[i][j][k]'],
    ['a[b[c]]', 'a[b[c]]'],
    ['u1.u2.q', 'u1.u2.q'],
    ['u1.q[3]', 'u1.q[3]'],
    ['g[2].u.q[3:0]', 'g[2].u.q[3:0]'],
    // Names that the grammar knows as built-in methods are ordinary names here.
    ['u1.next + u1.size', '(u1.next + u1.size)'],
    ['p::q', 'p::q'],
    ["{a, b[1], 2'b01}", "{a, b[1], 2'b01}"],
    ['{a}', '{a}'],
    ['{3{a}}', '{3{a}}'],
    ['{W{a, b}}', '{W{a, b}}'],
    ['{a, {2{b}}}', '{a, {2{b}}}'],
    ['{a, b}[1:0]', '{a, b}[1:0]'],
    ['f(a, b + 1)', 'f(a, (b + 1))'],
    ['$signed(a) >>> 1', '($signed(a) >>> 1)'],
    ['$time', '$time()'],
    ['$clog2(8)', '$clog2(8)'],
    ["signed'(a)", '$signed(a)'],
    ['(1:2:3)', '1:2:3'],
    ['((a))', 'a'],
    ['"a\\tb\\"c\\101"', '"a\\tb\\"cA"'],
    ['""', '""'],
    ['\\a+b + c', '(\\a+b  + c)'],
    // IEEE 1364-2005 3.7.1: an escaped name that is an ordinary one is that name.
    ['\\abc + abc', '(abc + abc)'],
    ['\\begin ', '\\begin '],
    ['a$b', 'a$b'],
    ["'{a, b}", "'{a, b}"],
    ["'{x: 1, default: '0}", "'{x: 1, default: '0}"],
    ["p::t'{4{'{a, 1}}}", "p::t'{4{'{a, 1}}}"],
    ['{<<8{a, b}}', '{<<8{a, b}}'],
    ['{>>{a}}', '{>>{a}}'],
    ['s[1].m.k[3:0]', 's[1].m.k[3:0]'],
  ])('%s', async (text, taken) => {
    expect(await read(text)).toBe(taken);
  });

  test.each([
    ['a++', 'inc or dec expression'],
    ['a -> b', 'operator ->'],
    ['(a = b)', 'assignment inside an expression'],
    ['type(a)', 'type reference'],
  ])('%s is a hole and is said', async (text, what) => {
    const reading = await readText(`module m; assign a = ${text}; endmodule`);
    expect(reading.complaints).toMatchObject([{ id: 'unsupported', reason: 'construct', args: { what } }]);
    expect(await read(text)).toBe('?');
  });
});

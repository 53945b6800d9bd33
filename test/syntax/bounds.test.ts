// Text made to be too much: deep, long, or growing without end. Reading ends, says which limit was passed
// where one was, and still knows the module.

import { describe, expect, test } from 'vitest';
import { limitDefaults } from '../../server/src/budget';
import { readText } from '../tools/reading';

const many = 100_000;
const inModule = (text: string) => `module m;\nwire early;\n${text}\nendmodule\nmodule n; wire z; endmodule\n`;

async function read(text: string) {
  const { complaints, units } = await readText(text);
  const modules = units.flatMap(({ table }) => (table.kind === 'module' ? [table] : []));
  return { reasons: complaints.map(({ reason, args }) => [reason, ...Object.values(args)].join(' ')), modules };
}

const nestingLimit = expect.stringMatching(/^limit nesting \d+$/);

describe('nesting', () => {
  test.each([
    ['subtractions', `assign a = ${'b - ('.repeat(20_000)}b${')'.repeat(20_000)};`],
    ['braces', `assign a = ${'{'.repeat(many)}b${'}'.repeat(many)};`],
    ['conditionals', `assign a = ${'b ? c : '.repeat(20_000)}d;`],
    ['indices', `assign a = ${'b['.repeat(20_000)}0${']'.repeat(20_000)};`],
    ['calls', `assign a = ${'f('.repeat(20_000)}b${')'.repeat(20_000)};`],
    ['begin', `initial ${'begin '.repeat(many)}${'end '.repeat(many)}`],
    ['if', `initial ${'if (a) '.repeat(20_000)};`],
    ['generate blocks', `${'if (A) begin '.repeat(20_000)}${'end '.repeat(20_000)}`],
    ['events', `always @${'('.repeat(20_000)}a${')'.repeat(20_000)} b = c;`],
  ])(
    'of %s',
    async (_what, text) => {
      const { reasons, modules } = await read(inModule(text));
      expect(reasons).toEqual([nestingLimit]);
      expect(modules.map(({ name }) => name.name)).toEqual(['m', 'n']);
      expect(modules[0]?.items[0]).toMatchObject({ kind: 'net' });
    },
    60_000,
  );

  test.each([
    ['parentheses', `assign a = ${'('.repeat(many)}b;`],
    ['begin', `initial ${'begin '.repeat(many)}`],
    ['case', `initial ${'case (a) 1: '.repeat(5_000)};`],
  ])(
    'of %s that are never closed',
    async (_what, text) => {
      const { reasons, modules } = await read(inModule(text));
      expect(reasons.length).toBeGreaterThan(0);
      expect(reasons.length).toBeLessThanOrEqual(limitDefaults.complaints);
      expect(modules.map(({ name }) => name.name)).toEqual(['m', 'n']);
    },
    60_000,
  );

  test('too deep, beside damage', async () => {
    const { reasons, modules } = await read(
      inModule(`assign = ;\ninitial ${'begin '.repeat(2_000)}${'end '.repeat(2_000)}`),
    );
    expect(reasons).toEqual(['unexpected =', nestingLimit]);
    expect(modules[0]?.items[0]).toMatchObject({ kind: 'net' });
  });

  test('a lower limit is obeyed exactly', async () => {
    const limits = { ...limitDefaults, nesting: 3 };
    const whole = await readText('module m; assign a = ((b + 1) * 2) + 3; endmodule', { limits });
    expect(whole.complaints).toEqual([]);
    const { complaints } = await readText('module m; assign a = 1 - (2 - (3 - (4 - b))); endmodule', { limits });
    expect(complaints).toMatchObject([{ id: 'limit-reached', args: { limit: 'nesting', value: 3 } }]);
  });
});

describe('length', () => {
  test.each([
    ['a name of a million letters', `wire ${'x'.repeat(1 << 20)};`],
    ['parentheses around parentheses', `assign a = ${'('.repeat(many)}b${')'.repeat(many)};`],
    ['a chain of operators', `assign a = b${' + b'.repeat(many / 2)};`],
    ['a list of events', `always @(a${' or a'.repeat(20_000)}) b = c;`],
    ['many items', 'assign a = b;\n'.repeat(20_000)],
    ['many comments', '/* a */ // b\n'.repeat(many)],
    ['many semicolons', ';'.repeat(many)],
    ['one long list', `assign a = {${'b, '.repeat(20_000)}c};`],
  ])(
    '%s is read',
    async (_what, text) => {
      const { reasons, modules } = await read(inModule(text));
      expect(reasons).toEqual([]);
      expect(modules.map(({ name }) => name.name)).toEqual(['m', 'n']);
    },
    60_000,
  );

  test.each([
    ['words without sense', 'a b c d '.repeat(2_000)],
    ['marks without sense', ') ( ] ; = , * '.repeat(2_000)],
    ['words to a line', 'foo\n'.repeat(2_000)],
    ['closing words', 'end '.repeat(20_000)],
    ['strings that are never closed', 'initial $display("abc;\n'.repeat(1_000)],
    ['attributes that are never closed', '(* '.repeat(5_000)],
  ])(
    '%s give no more complaints than the limit',
    async (_what, text) => {
      const { reasons, modules } = await read(inModule(text));
      expect(reasons.length).toBeGreaterThan(0);
      expect(reasons.length).toBeLessThanOrEqual(limitDefaults.complaints);
      expect(modules.map(({ name }) => name.name)).toEqual(['m', 'n']);
    },
    60_000,
  );

  test('modules that are never closed', async () => {
    const { reasons, modules } = await read('module m;\n'.repeat(5_000));
    expect(modules).toHaveLength(5_000);
    expect(reasons).toHaveLength(limitDefaults.complaints);
  }, 60_000);
});

describe('directives', () => {
  const doubling = (first: string) =>
    [
      `\`define A0 ${first}`,
      ...Array.from({ length: 60 }, (_each, index) => `\`define A${index + 1} \`A${index} \`A${index}`),
    ].join('\n');

  test.each([
    ['text', 'x'],
    ['nothing', ''],
  ])(
    'macros that double %s',
    async (_what, first) => {
      const { reasons, modules } = await read(
        `${doubling(first)}\nmodule m;\nwire a;\nwire \`A60;\nwire b;\nendmodule\n`,
      );
      expect(reasons).toEqual([`limit expandedCharacters ${limitDefaults.expandedCharacters}`]);
      expect(modules[0]?.items[0]).toMatchObject({ kind: 'net' });
    },
    60_000,
  );

  test('macros one inside the other, and arguments inside arguments', async () => {
    const chain = Array.from({ length: 300 }, (_each, index) => `\`define A${index + 1} \`A${index}\n`).join('');
    expect((await read(`\`define A0 1\n${chain}module m; wire [\`A300:0] a; endmodule`)).reasons).toEqual([
      'limit macroDepth 128',
    ]);
    const nested = `\`define F(a) a\nmodule m; wire x = ${'`F('.repeat(300)}1${')'.repeat(300)}; endmodule`;
    expect((await read(nested)).reasons[0]).toBe('limit macroDepth 128');
  });

  test('conditionals one inside the other', async () => {
    const { reasons } = await read('`ifdef X\n'.repeat(many));
    expect(reasons).toHaveLength(limitDefaults.complaints);
    expect(
      (await read(`${'`ifndef X\n'.repeat(many)}module m; endmodule\n${'`endif\n'.repeat(many)}`)).reasons,
    ).toEqual([]);
  }, 60_000);

  test('back-ticks, and uses that are never closed', async () => {
    expect((await read('`'.repeat(many))).reasons).toHaveLength(limitDefaults.complaints);
    expect((await read(`\`define F(a) a\n${'`F(a '.repeat(5_000)}`)).reasons.length).toBeLessThanOrEqual(
      limitDefaults.complaints,
    );
  }, 60_000);
});

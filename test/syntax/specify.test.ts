// Specify blocks as tables. Forms after IEEE 1364-2005 clauses 14 and 15.

import { describe, expect, test } from 'vitest';
import { netlistOf } from '../tools/elaborated';
import { moduleOf, readText } from '../tools/reading';
import { spellItem } from './spell';

async function block(text: string): Promise<string> {
  const { items } = await moduleOf(`module m; specify ${text} endspecify endmodule`);
  return items.map(spellItem).join(' ');
}

describe('what a specify block holds', () => {
  test.each([
    ['(a => b) = 3;', 'a => b = 3'],
    ['(a +=> b) = 3;', 'a => b = 3'],
    ['(a -*> b, c) = (1, 2);', 'a *> b, c = 1, 2'],
    ['(a, b[2:1] *> c[0]) = (1:2:3, 4);', 'a, b[2:1] *> c[0] = 1:2:3, 4'],
    ['(a => b) = (1 + 2) * 3;', 'a => b = ((1 + 2) * 3)'],
    ['(posedge c => (q +: d)) = (1, 2);', 'posedge c => q = 1, 2'],
    ["(negedge r *> (q, n : 1'b0)) = 1.5;", 'negedge r *> q, n = real 1.5'],
    ["if (a == 2'b01 && !b) (c => d) = 3;", "if ((a == 2'b01) && (!b)) c => d = 3"],
    ['ifnone (c => d) = 3;', 'ifnone c => d = 3'],
    ['pulsestyle_ondetect a, b;', 'ondetect a, b'],
    ['$setup(d, posedge c &&& e, 1:2:3, n);', '$setup(d, posedge c &&& e, 1:2:3, n)'],
    ['$width(edge [01, z1] c, 5);', '$width(edge [01 x1] c, 5)'],
    ['$setuphold(posedge c, d, 1, -2, , , , dc, dd);', '$setuphold(posedge c, d, 1, (-2), , , , dc, dd)'],
    ['specparam PATHPULSE$a$b = (2, 9); ', 'pulse a b = 2, 9'],
    ['specparam PATHPULSE$ = 3;', 'pulse = 3'],
  ])('%s', async (text, taken) => {
    expect((await readText(`module m; specify ${text} endspecify endmodule`)).complaints).toEqual([]);
    expect(await block(text)).toBe(`specify ${taken}; endspecify`);
  });

  test('specparams are parameters of the module, in triples', async () => {
    expect(await block('specparam t = 1:2:3, u = 4; (a => b) = (t, u);')).toBe(
      'localparam t = 1:2:3, u = 4; specify a => b = t, u; endspecify',
    );
  });

  test('what does not fit is said and left out, the rest is read', async () => {
    const text = 'module m; specify (a => ) = 3; (a => b) = 4; $hold(posedge c d, 1); endspecify endmodule';
    const { complaints } = await readText(text);
    expect(complaints.map(({ reason, args }) => `${reason} ${args.text}`)).toEqual(['unexpected )', 'unexpected d']);
    expect(await block('(a => ) = 3; (a => b) = 4;')).toBe('specify a => b = 4; endspecify');
  });

  test('nesting past its limit is refused and not followed', async () => {
    const deep = `${'('.repeat(1000)}a${')'.repeat(1000)}`;
    const { complaints } = await readText(`module m; specify (a => b) = ${deep}; endspecify endmodule`);
    expect(complaints.length).toBeGreaterThan(0);
  });

  test('any word missing, doubled or cut off is lived with', async () => {
    const text = `specify
      specparam t = 1:2:3, PATHPULSE$ = (1, 2);
      if (a && !v[0]) (b => y) = (t, 2);
      ifnone (b => y) = 3;
      (posedge clk *> (r +: {a, 2'b01})) = (1, 2, 3);
      pulsestyle_ondetect y;
      $setuphold(posedge clk &&& (a == 1), edge [01, 1x] b, 2, -1, n, , , dc, dd);
      $width(negedge clk, 3, 1);
    endspecify`;
    const words = text.match(/[A-Za-z_$][\w$]*|[^\s\w]|\d+/g) ?? [];
    for (let index = 0; index < words.length; index++) {
      const around = [words.slice(0, index), words.slice(index + 1)];
      const damaged = [
        [...around[0], ...around[1]],
        [...around[0], words[index], words[index], ...around[1]],
        around[0],
      ];
      for (const form of damaged) {
        const ports = 'input a, b, clk, input [3:0] v, output y, output reg r';
        const body = `module m(${ports}); ${form.join(' ')}\n assign y = b; always @(posedge clk) r <= a; endmodule`;
        const { netlist } = await netlistOf(body);
        expect(netlist.registers).toHaveLength(1);
      }
    }
  });
});

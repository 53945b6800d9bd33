// `defparam` (IEEE 1364-2005 12.2.1): parameters set from above, or from beside, by their hierarchical name.
import { describe, expect, test } from 'vitest';
import type { Netlist } from '../../server/src/netlist/netlist';
import { netlistOf } from '../tools/elaborated';

const reasons = (complaints: readonly { readonly id: string; readonly reason: string }[]) =>
  complaints.map(({ id, reason }) => `${id} ${reason}`);

describe('defparam (12.2.1)', () => {
  const below = `module mid #(parameter D = 1) (input a, output y); leaf t(a, y); endmodule
    module leaf #(parameter W = 1) (input a, output y); parameter V = W; wire [V - 1:0] k = {V{a}}; assign y = ^k; endmodule`;
  const widthsOf = (netlist: Netlist) =>
    Object.fromEntries(
      netlist.signals.filter(({ localName }) => localName === 'k').map(({ name, width }) => [name, width]),
    );

  test.each([
    ['over its default', 'defparam u.W = 3; leaf u(a, y);', { 'u.k': 3 }],
    ['over what the instance is given', 'leaf #(.W(2)) u(a, y); defparam u.W = 4;', { 'u.k': 4 }],
    ['the last of two', 'leaf u(a, y); defparam u.W = 4, u.W = 5;', { 'u.k': 5 }],
    ['two levels down', 'mid u(a, y); defparam u.t.W = 6;', { 'u.t.k': 6 }],
    ['into one of several instances', 'mid u(a, y); mid v(a, y); defparam v.t.W = 2;', { 'u.t.k': 1, 'v.t.k': 2 }],
    [
      'into a generate block',
      'genvar i; for (i = 0; i < 2; i = i + 1) begin : g leaf u(a, y); end defparam g[1].u.W = 7;',
      { 'g[0].u.k': 1, 'g[1].u.k': 7 },
    ],
    [
      'from inside one',
      'genvar i; for (i = 0; i < 2; i = i + 1) begin : g leaf u(a, y); defparam u.W = i + 2; end',
      { 'g[0].u.k': 2, 'g[1].u.k': 3 },
    ],
    ['with a parameter of its own module', 'localparam P = 2 * 4; leaf u(a, y); defparam u.W = P;', { 'u.k': 8 }],
  ])('%s', async (_, text, widths) => {
    const { netlist, complaints } = await netlistOf(`module m(input a, output y); ${text} endmodule ${below}`, {
      top: 'm',
    });
    expect(complaints).toEqual([]);
    expect(widthsOf(netlist)).toEqual(widths);
  });

  test.each([
    ['no such instance', 'defparam v.W = 3;', 'unresolved-name undeclared-name'],
    ['no such parameter', 'defparam u.X = 3;', 'unresolved-name unknown-parameter'],
    ['no constant', 'defparam u.W = a;', 'unsupported not-constant'],
  ])('%s', async (_, text, reason) => {
    const { netlist, complaints } = await netlistOf(
      `module m(input a, output y); leaf u(a, y); ${text} endmodule ${below}`,
      { top: 'm' },
    );
    expect(reasons(complaints)).toEqual([reason]);
    expect(widthsOf(netlist)).toEqual({ 'u.k': 1 });
  });
});

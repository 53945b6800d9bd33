// A delay in a net's declaration speaks of the names where it stands, a generate block's own parameters included.

import { expect, it } from 'vitest';
import { netlistOf } from '../tools/elaborated';

it('each turn of a generate loop gives its net a delay of its own', async () => {
  const { netlist, complaints } = await netlistOf(`\`timescale 1ns/1ps
    module m(input logic [2:0] d, output logic [2:0] y);
      genvar i;
      generate for (i = 0; i < 3; i = i + 1) begin : g
        localparam D = i + 1;
        wire #(D) w;
        assign w = d[i];
        assign y[i] = w;
      end endgenerate
    endmodule`);
  expect(complaints).toEqual([]);
  expect(netlist?.explicitDelays.map(({ rise }) => rise.typ)).toEqual([1000, 2000, 3000]);
});

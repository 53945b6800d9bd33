//>> because a halver that clocks a counter of five: a decade in two parts (74HC390)
module hc390(input cka, ckb, clr, output reg qa, output reg [2:0] qb);
  always @(negedge cka or posedge clr) if (clr) qa <= 0; else qa <= ~qa;
  always @(negedge ckb or posedge clr) if (clr) qb <= 0; else if (qb == 4) qb <= 0; else qb <= qb + 1;  //> ckb finding ripple-chain
endmodule
module decade(input clk, clr, output [3:0] q);  //> clr finding reset-release
  hc390 u(clk, q[0], clr, q[0], q[3:1]);
endmodule

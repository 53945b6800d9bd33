//>> because a divided clock in an interface is a clock like any other, and each finding stands in its own file
module halves(taps.driver t); //> t no register
  initial t.tap = 0;
  always @(negedge t.clk) t.tap[0] <= ~t.tap[0];
  always @(negedge t.tap[0]) t.tap[1] <= ~t.tap[1]; //> t finding ripple-chain
endmodule
//>> file taps.sv
interface taps(input logic clk);
  logic [1:0] tap;
  modport driver(input clk, output tap);
endinterface
//>> file top.sv
module top(input clk, output logic q);
  taps t(.clk(clk));
  halves h(.t(t));
  initial q = 0;
  always @(negedge t.tap[1]) q <= ~q; //> q clock h.t.tap[1] falling, stage 3, ratio 8/1
endmodule

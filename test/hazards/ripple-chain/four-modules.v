//>> because a chain runs through instances; it is told at the edge list of its second stage
module toggle(input c, output reg q);
  initial q = 0;
  always @(negedge c) q <= ~q;  //> c finding ripple-chain
endmodule
module chain(input clk, output [2:0] q);
  toggle t0(clk, q[0]);
  toggle t1(q[0], q[1]);
  toggle t2(q[1], q[2]);
endmodule

//>> because a toggle without reset or start value never becomes known
module toggle(input clk, output reg q);  //> q finding unknown-start information
  always @(posedge clk) q <= ~q;
endmodule

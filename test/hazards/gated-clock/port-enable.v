//>> because nobody knows when a port moves
module from_port(input clk, input en, input d, output reg q);
  wire g;
  and (g, clk, en);  //> g finding gated-clock possible warning
  always @(posedge g) q <= d;
endmodule

//>> because the outputs of an unknown cell are roots, and one finding stands per cell name (rule 44)
module boxed(input clk, input d, output reg q);
  wire fast;
  clock_doubler u(.in(clk), .out(fast));  //> u finding unresolved-module warning
  always @(posedge fast) q <= d;  //> q clock fast rising, stage 1
endmodule

//>> because a multiplexer of data is no switch
module data_multiplexer(input clk, input pick, input a, input b, output reg q);
  wire d = pick ? a : b;  //> d quiet
  always @(posedge clk) q <= d;
endmodule

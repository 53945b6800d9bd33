//>> because the name tells, and the report says that it was the name
module named(input sys_clk, input b, input d, output reg q);
  wire g = sys_clk & b;  //> & finding gated-clock possible
  always @(posedge g) q <= d;  //> g quiet | q root sys_clk rising
endmodule

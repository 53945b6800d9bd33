//>> because an inverted or renamed root is no derived clock
module renamed(input clk, input d, output reg a, output reg b);
  wire upside = ~clk;
  wire same = clk;
  always @(posedge upside) a <= d;  //> upside quiet
  always @(posedge same) b <= d;  //> same quiet
endmodule

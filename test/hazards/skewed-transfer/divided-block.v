//>> because data of the root clock and a clock made from it leave with one edge (rule 28)
module sampler(input clk, output reg seen);
  reg half, data;
  initial {half, data} = 0;
  always @(posedge clk) half <= ~half;
  always @(posedge clk) data <= ~data;
  always @(posedge half) seen <= data;  //> half finding derived-clock | seen finding skewed-transfer warning
endmodule

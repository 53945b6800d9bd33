//>> because a divided clock and data that leave together race, even at equal times (rule 28)
module together(input clk, output reg seen);
  reg half, data;
  initial {half, data, seen} = 0;
  always @(posedge clk) half <= ~half;
  always @(posedge clk) data <= ~data;
  always @(posedge half) seen <= data;  //> seen finding skewed-transfer warning | half finding derived-clock
endmodule

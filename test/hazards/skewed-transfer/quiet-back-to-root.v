//>> because the root samples what a divided clock changed only after it sampled: the old value, for certain
module back(input clk, input d, output reg seen);
  reg half, slow;
  initial {half, slow} = 0;
  always @(posedge clk) half <= ~half;
  always @(posedge half) slow <= d;  //> half finding derived-clock
  always @(posedge clk) seen <= slow;  //> seen quiet
endmodule

//>> because a block that samples on the other edge has half a period
module half_later(input clk, output reg seen);
  reg half, data;
  initial {half, data} = 0;
  always @(posedge clk) half <= ~half;
  always @(negedge clk) data <= ~data;
  always @(posedge half) seen <= data;  //> half finding derived-clock | seen quiet
endmodule

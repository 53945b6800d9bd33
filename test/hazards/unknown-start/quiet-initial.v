//>> because an initial value makes it known
module divider(input clk, output reg half);
  initial half = 1'b0;
  always @(posedge clk) half <= ~half;  //> half quiet, start 0, start-from text
endmodule

//>> because whichever clock it is in step with, the other hears it raw or late
module one_side(input clk_a, clk_b, go, output reg x, y);  //> go finding raw-input
  reg first = 0;
  initial {x, y} = 0;
  always @(posedge clk_a) {x, first} <= {first, go};
  always @(posedge clk_b) y <= go ^ y;
endmodule

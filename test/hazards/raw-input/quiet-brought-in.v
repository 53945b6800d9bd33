//>> because two flip-flops in a row bring it into each clock
module brought_in(input clk_a, clk_b, button, output reg a, b);  //> button quiet
  reg first_a = 0, first_b = 0;
  initial {a, b} = 0;
  always @(posedge clk_a) {a, first_a} <= {first_a, button};
  always @(posedge clk_b) {b, first_b} <= {first_b, button};
endmodule

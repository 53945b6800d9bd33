//>> because two clocks that only meet in a gate make a third, whose edges nothing orders
module joined(input clk_a, input clk_b, input d, output reg q);
  wire c = clk_a | clk_b;
  always @(posedge c) q <= d;  //> c finding derived-clock warning
endmodule

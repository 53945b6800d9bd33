//>> because a comparison hears the loop while its other bits agree, and mode can be such that they do
module by_comparison(input [1:0] mode, input [3:0] a, output left, output right);
  assign left = {mode, right} == 3'b101;  //> right finding combinational-loop certain
  assign right = mode[1] && |{left, a};
endmodule

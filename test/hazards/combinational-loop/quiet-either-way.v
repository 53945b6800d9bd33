//>> because no value of the select closes the way around (rule 18)
module either_way(input left, input [3:0] a, input [3:0] b, output [3:0] x, output [3:0] y);
  assign x = left ? a : ~y;  //> x quiet
  assign y = left ? ~x : b;  //> y quiet
endmodule

//>> because an operand is spelled differently from its declaration
module adder(input [7:0] left, input [7:0] right, output [7:0] sum);
  wire [7:0] carry_save = left ^ right;
  assign sum = carry_sav + left;  //> carry_sav finding unresolved-name error
endmodule

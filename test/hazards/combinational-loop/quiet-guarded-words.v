//>> because a comparison that fails in a bit from outside hears no other bit, and of two modes only one can be set
module guarded_words(input [1:0] mode, input [3:0] a, output left, output right);
  assign left = {mode, right} == 3'b101;  //> = quiet
  assign right = mode == 2'b01 && |{left, a};  //> left quiet
endmodule

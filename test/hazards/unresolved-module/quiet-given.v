//>> because the module stands in another file of the same run
module uses_given(input a, output y);
  given u(.i(a), .o(y));  //> u quiet
endmodule
//>> file given.v
module given(input i, output o);
  assign o = ~i;
endmodule

//>> because a scalar net of a continuous assignment or connection may be left undeclared (IEEE 1364-2005 4.5)
module implicit(input a, input b, output y);
  and g(both, a, b);  //> both quiet
  assign y = both;
endmodule

//>> because a connection names a port that the module does not have
module inner(input a, output b);
  assign b = a;
endmodule
module outer(input x, output y);
  inner u(.a(x), .bb(y));  //> bb finding unresolved-name
endmodule

//>> because a module that is not given is told once, however often it stands there
module cells(input a, b, output x, y);
  mystery first(.i(a), .o(x));  //> first finding unresolved-module information
  mystery second(.i(b), .o(y));  //> mystery quiet
endmodule

//>> because a process assigns variables, and an output without reg is a net (IEEE 1364-2005 9.2)
module chooser(input s, input a, input b, output y);
  always @*
    if (s) y = a;  //> y finding syntax error
    else y = b;  //> y finding syntax error
endmodule

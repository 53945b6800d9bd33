//>> because different bits have different drivers
module apart(input a, b, output [1:0] y);
  assign y[0] = a;
  assign y[1] = b;  //> y quiet
endmodule

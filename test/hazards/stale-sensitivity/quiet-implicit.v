//>> because @* lists whatever is read (9.7.5)
module implicit(input a, b, c, output reg y);
  always @* y = a ? b : c;  //> * quiet
endmodule

//>> because two parts of one vector share a bit
module overlap(input [3:0] a, input [3:0] b, output [6:0] y);
  assign y[3:0] = a;
  assign y[6:3] = b;  //> y finding shared-driver error
endmodule

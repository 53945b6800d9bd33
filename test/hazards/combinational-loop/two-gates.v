//>> because two assignments feed each other with nothing between: a 1 and b 0 close the way round
module two(input a, input b, output y);
  wire x;
  assign x = ~(y & a);  //> y finding combinational-loop certain error
  assign y = x | b;
endmodule

//>> because two assignments feed each other with nothing between
module two(input a, output y);
  wire x;
  assign x = ~(y & a);  //> y finding combinational-loop error
  assign y = x | a;
endmodule

//>> because two assignments feed each other with nothing between
module two(input a, output y);
  wire x;
  assign x = ~(y & a);
  assign y = x | a;  //> x finding combinational-loop error
endmodule

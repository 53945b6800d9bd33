//>> because with a at 0 the first gate gives 1 whatever it hears, and with a at 1 the second does (rule 18)
module one_input(input a, output y);
  wire x;
  assign x = ~(y & a);  //> y quiet
  assign y = x | a;  //> x quiet
endmodule

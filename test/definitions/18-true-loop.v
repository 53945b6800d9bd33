//>> because a bit that depends on itself without storage is a combinational loop (rule 18)
module ring(input en, output y);
  wire a = ~(y & en);  //> & finding combinational-loop error certain
  assign y = a & en;
endmodule

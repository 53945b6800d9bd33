//>> because the same of two NORs, written as assignments, is storage as well
module nor_latch(input s, input r, output q, output q_n);  //> q latch intended, forced r high 0 s high 1
  assign q = ~(r | q_n);  //> q quiet
  assign q_n = ~(s | q);
endmodule

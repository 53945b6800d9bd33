//>> because the same of two NORs, written as assignments, is storage as well
module nor_latch(input s, input r, output q, output q_n);
  assign q = ~(r | q_n);  //> q quiet
  assign q_n = ~(s | q);
endmodule

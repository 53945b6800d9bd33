//>> because two gates in front of cross-coupled NANDs only open and close the storage (rule 40)
module gated(input open, input d, output q, output q_n);  //> q latch intended, gate open high, forced none
  wire set_n, reset_n;
  nand g0(set_n, d, open);
  nand g1(reset_n, ~d, open);
  nand g2(q, set_n, q_n);  //> q quiet
  nand g3(q_n, reset_n, q);  //> q_n quiet
endmodule

//>> because two cross-coupled NAND gates are storage somebody built (rule 40)
module set_reset(input s_n, input r_n, output q, output q_n);  //> q latch intended, gate none, forced s_n low 1 r_n low 0
  nand g0(q, s_n, q_n);  //> q quiet
  nand g1(q_n, r_n, q);  //> q_n quiet
endmodule

//>> because two cross-coupled NAND gates are storage somebody built (rule 40)
module set_reset(input s_n, input r_n, output q, output q_n);
  nand g0(q, s_n, q_n);  //> q quiet
  nand g1(q_n, r_n, q);  //> q_n quiet
endmodule

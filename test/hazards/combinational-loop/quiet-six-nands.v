//>> because six NANDs are an edge-triggered flip-flop (Mano, Digital Design, ch. 5; from memory)
module flip_flop(input d, input clk, output q, output q_n);
  wire w1, w2, w3, w4;  //> w1 latch intended, gate none
  nand (w1, w4, w2);  //> w1 quiet
  nand (w2, w1, clk);
  nand (w3, w2, clk, w4);
  nand (w4, w3, d);
  nand (q, w2, q_n);  //> q quiet
  nand (q_n, w3, q);
endmodule

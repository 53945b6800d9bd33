//>> because gates that hold each other behind one clock are latches of that clock: master and slave, one open while clk is low, one while it is high
module pair(input clk, input d, input clear_n, output q, output q_n);  //> q latch intended, gate clk high, domain clk, forced clear_n low 0
  wire m, m_n, set_n, reset_n, on_n, off_n;  //> m gate clk low, domain clk
  nand (set_n, d, ~clk);
  nand (reset_n, ~d, ~clk);
  nand (m, set_n, m_n);
  nand (m_n, reset_n, m);
  nand (on_n, m, clk);
  nand (off_n, m_n, clk);
  nand (q, on_n, q_n);
  nand (q_n, off_n, clear_n, q);
endmodule

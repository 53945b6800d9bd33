//>> because of two latches in a ring one is shut while the other is open (rule 18)
module master_slave(input clk, input clear, output reg q);
  reg m;
  always @* if (clear) m = 0; else if (!clk) m = ~q;  //> m quiet
  always @* if (clk) q = m;  //> q quiet
endmodule

//>> because a reset is active from 0 for two periods of the clock that samples it (rule 35)
module released(input clk, input rst, output reg q);
  always @(posedge clk) if (rst) q <= 0; else q <= ~q;  //> rst held-for 2, quiet
endmodule

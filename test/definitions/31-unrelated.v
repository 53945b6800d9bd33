//>> because a sample at an edge of an unrelated clock takes one of the two values and the run goes on; no sequence is told across it (rule 31)
//>> project {"clocks": {"clk": {"periodPs": 20000}, "other": {"periodPs": 20000}}}
module unrelated(input clk, input other, output reg sent, output reg seen);
  initial {sent, seen} = 0;
  always @(posedge clk) sent <= ~sent;  //> sent ratio 2/1
  always @(posedge other) seen <= sent;  //> seen finding bare-crossing, ratio none
endmodule

//>> because the run shows the typical delay and the window where the change may lie (rule 32)
//>> project {"delays": "spread", "delaySets": {"spread": {"clockToQ": {"first": {"rise": [200, 500, 900], "fall": [300, 600, 700]}}}}}
module spread(input clk, output reg q);
  initial q = 0;
  always @(posedge clk) q <= ~q;  //> q window 200 600 900, at 10499 0, at 10500 1, at 30599 1, at 30600 0
endmodule

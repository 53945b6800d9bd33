//>> because where a root edge comes before every window since the last one has closed there is no settled instant: from 1 to 2 the reading is a gap that goes on through the next edge, and begins anew where all is still (rule 32)
//>> project {"delays": "spread", "delaySets": {"spread": {"clockToQ": {"first": [2000, 3000, 6000]}}}, "clocks": {"clk": {"periodPs": 11000, "phasePs": 5500, "highPs": 5500}}}
module settled(input clk, output reg [1:0] q);
  initial q = 0;
  always @(negedge clk) q[0] <= ~q[0];  //> q gap 13000 17000, gap 24000 39000
  always @(negedge q[0]) q[1] <= ~q[1];  //> [0] finding ripple-chain
endmodule

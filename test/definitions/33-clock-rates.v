//>> because a chain of two stages of 4 ns settles after 8 ns, its reader needs 2 ns more, and the first stage toggles at 100 MHz (rule 33)
//>> project {"delays": "part", "delaySets": {"part": {"clockToQ": {"first": {"rise": 4000, "fall": 4000}}, "setup": 2000, "period": 10000}}}
module rates(input clk, output reg a, output reg b);
  initial {a, b} = 0;
  always @(negedge clk) a <= ~a;  //> a rates 125000000 100000000 100000000
  always @(negedge a) b <= ~b;  //> a finding ripple-chain
endmodule

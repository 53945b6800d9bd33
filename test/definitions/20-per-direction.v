//>> because a stage takes only the direction that clocks it: falls after 100, 150 and 200, and rises of the last after 180 (rule 20); the larger of both at every stage would say 200 for the second circuit too
//>> project {"delays": "part", "delaySets": {"part": {"clockToQ": {"first": {"rise": 100, "fall": 100}, "next": {"rise": 30, "fall": 50}}}}}
module both(input clk, output [2:0] up, output [2:0] down);
  falling f(clk, up);
  rising r(clk, down);
endmodule
module falling(input clk, output [2:0] q);
  reg a, b, c;
  initial {a, b, c} = 0;
  always @(negedge clk) a <= ~a;  //> a settle 200 200 200 7 0
  always @(negedge a) b <= ~b;  //> a finding ripple-chain
  always @(negedge b) c <= ~c;
  assign q = {c, b, a};
endmodule
module rising(input clk, output [2:0] q);
  reg d, e, f;
  initial {d, e, f} = 0;
  always @(posedge clk) d <= ~d;  //> d settle 180 180 180 4 3
  always @(posedge d) e <= ~e;  //> d finding ripple-chain
  always @(posedge e) f <= ~f;
  assign q = {f, e, d};
endmodule

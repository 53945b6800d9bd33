//>> because a window reaches from the earliest to the latest change of every signal, logic too: exact where a gate goes over once in every order, the widest where it may come and go, and none for what an order fixed by a shared cause forbids (rules 21 and 32)
//>> project {"delays": "spread", "delaySets": {"spread": {"clockToQ": {"first": [2000, 3000, 5000]}, "logic": {"gate": [1000, 1000, 2000]}}}, "clocks": {"clk": {"periodPs": 100000, "phasePs": 50000}}}
module windows(input clk, output both, output three, output apart);
  reg a, b, c;
  initial {a, b, c} = 0;
  always @(negedge clk) a <= ~a;  //> a band 102000 105000 once exact
  always @(negedge clk) c <= ~c;
  always @(negedge a) b <= ~b;  //> a finding ripple-chain | b band 204000 210000 once exact
  assign both = a & c;  //> both band 103000 107000 once exact
  assign three = a & b;  //> three band 303000 307000 once exact, no-band 203000 212000
  assign apart = a ^ c;  //> apart band 103000 107000 many wide | ^ finding decoded-glitch possible
endmodule

//>> because an effect follows its cause however wide the delays are: from 1 to 2 a ripple counter passes 0 in every order, and from 0 to 1 nothing (rule 21)
//>> project {"delays": "wide", "delaySets": {"wide": {"clockToQ": {"first": {"rise": [1, 50, 900], "fall": [1, 50, 900]}}}}}
module ordered(input clk, output zero, output three);
  reg a, b;
  initial {a, b} = 0;
  always @(negedge clk) a <= ~a;
  always @(negedge a) b <= ~b;  //> a finding ripple-chain
  assign zero = {b, a} == 2'd0;  //> == finding decoded-glitch certain | zero glitch certain
  assign three = {b, a} == 2'd3;  //> three glitch none
endmodule

//>> because an inertial delay removes what is surely shorter than it, and keeps what is surely longer: the pulse of 1 ns between two stages of a ripple counter (rule 25)
`timescale 1ns/1ps
module pulses(input clk, output long, output short, output perhaps);
  reg a, b;
  initial {a, b} = 0;
  always @(negedge clk) a <= ~a;
  always @(negedge a) b <= ~b;  //> a finding ripple-chain
  assign #2 long = {b, a} == 2'd0;  //> long glitch none
  assign #0.5 short = !(a || b);  //> 0.5 finding decoded-glitch certain | short glitch certain
  between u({b, a}, perhaps);
endmodule
module between(input [1:0] n, output perhaps);
  wire #(0.5:0.7:1.5) decoded = n == 2'd0;  //> 0.5 finding decoded-glitch possible | decoded glitch possible
  assign perhaps = decoded;
endmodule

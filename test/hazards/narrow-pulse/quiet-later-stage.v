//>> because a sheet states the least period for the first stage of a part: the second is fed from inside
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":3000,"next":2000},"stagesPerPart":4,"period":19000}},"clocks":{"clk":{"periodPs":20000}}}
module ripple(input clk, output reg a, b);
  initial {a, b} = 0;
  always @(negedge clk) a <= ~a;  //> clk quiet
  always @(negedge a) b <= ~b;  //> a finding ripple-chain
endmodule

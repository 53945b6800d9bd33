//>> because the clock comes every 8 ns, and the set asks for 10 ns
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"period":10000}},"clocks":{"clk":{"periodPs":8000}}}
module fast(input clk, output reg q);
  initial q = 0;
  always @(posedge clk) q <= ~q;  //> clk finding narrow-pulse certain warning
endmodule

//>> because every bit is clocked by one net: nothing passes, however short the period
//>> project {"delays":"flops","delaySets":{"flops":{"clockToQ":{"first":10000}}},"clocks":{"clk":{"periodPs":12000}}}
module one_clock(input clk, output reg [3:0] seen);
  reg [3:0] q;
  initial {q, seen} = 0;
  always @(negedge clk) q <= q + 1;
  always @(negedge clk) seen <= q;  //> seen quiet
endmodule

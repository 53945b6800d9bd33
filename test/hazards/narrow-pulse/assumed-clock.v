//>> because the set asks for 60 ns of clock high, and nobody has said how fast the clock is
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"width":60000}}}
module slow(input clk, output reg q);
  initial q = 0;
  always @(negedge clk) q <= ~q;  //> clk finding narrow-pulse possible
endmodule

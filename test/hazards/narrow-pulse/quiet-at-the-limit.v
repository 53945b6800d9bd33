//>> because a pulse as wide as the limit, and a period as long, are fine
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"period":10000,"width":5000}},"clocks":{"clk":{"periodPs":10000}}}
module fits(input clk, output reg q);
  initial q = 0;
  always @(posedge clk) q <= ~q;  //> clk quiet
endmodule

//>> because the hold time is longer than clock-to-output with nothing behind it, though the data never moves in this run
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":{"min":300,"typ":500,"max":800}},"hold":600}},"clocks":{"clk":{"periodPs":40000}}}
module row(input clk, input d, output reg a, b);
  always @(posedge clk) a <= d;
  always @(posedge clk) b <= a;  //> b finding setup-hold possible
endmodule

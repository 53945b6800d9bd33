//>> because a register of the same clock that clears others lets go at an edge of it
module from_register(input clk, input start, input d, output reg q);  //> start quiet
  reg clear;
  initial {clear, q} = 2'b10;
  always @(posedge clk) clear <= start;
  always @(posedge clk or posedge clear) if (clear) q <= 0; else q <= d;
endmodule

//>> because a loop through a register is what registers are for
module counted(input clk, output [3:0] next);
  reg [3:0] n;
  initial n = 0;
  assign next = n + 4'd3;  //> + finding decoded-glitch hint
  always @(posedge clk) n <= next;  //> next quiet
endmodule

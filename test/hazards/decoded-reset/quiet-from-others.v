//>> because what makes the reset is not cleared by it: it lasts as long as that stands
module watch(input clk, kick, output reg alarm);
  reg [1:0] n = 0;
  initial alarm = 0;
  always @(posedge clk) n <= kick ? 2'd0 : n + 2'd1;
  wire back = ~n[0] & ~n[1];  //> n finding glitch-into-reset
  always @(posedge clk or posedge back) if (back) alarm <= 0; else alarm <= 1;  //> back quiet
endmodule

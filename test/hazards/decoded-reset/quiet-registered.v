//>> because a register holds the clear for a period
module held(input clk, output reg [3:0] n);
  reg clear = 0;
  initial n = 0;
  always @(posedge clk) clear <= n == 4'd8;
  always @(posedge clk or posedge clear) if (clear) n <= 0; else n <= n + 1;  //> clear quiet
endmodule

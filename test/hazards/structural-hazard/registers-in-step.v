//>> because the counter passes from 0 to 1 with one bit, while mode, which never moves with it, stands at 1
module in_step(input clk, mode, d, output reg q);
  reg low = 0;
  reg mode_1 = 0;
  always @(posedge clk) begin
    low <= ~low;
    mode_1 <= mode;
  end
  wire open = (low & mode_1) | (~low & mode_1 & d);  //> low finding structural-hazard, finding glitch-into-latch
  always @* if (open) q = d;
endmodule

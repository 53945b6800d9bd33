//>> because a ripple passes the code that opens the latch
module ripple_gate(input clk, input d, output reg q);
  reg [2:0] n;
  initial n = 0;
  always @(negedge clk)  n[0] <= ~n[0];
  always @(negedge n[0]) n[1] <= ~n[1];  //> n[0] finding ripple-chain warning
  always @(negedge n[1]) n[2] <= ~n[2];
  wire open = n[2] & ~n[1] & ~n[0];  //> n finding glitch-into-latch certain error
  always @* if (open) q = d;
endmodule

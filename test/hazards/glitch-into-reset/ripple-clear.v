//>> because a clear acts at any time, also for the moment of a passing code
module cleared(input clk, input d, output reg q);
  reg [2:0] n;
  initial {n, q} = 0;
  always @(negedge clk)  n[0] <= ~n[0];
  always @(negedge n[0]) n[1] <= ~n[1];  //> n[0] finding ripple-chain warning
  always @(negedge n[1]) n[2] <= ~n[2];
  wire clear = (n == 3'd0);  //> n finding glitch-into-reset certain error
  always @(posedge clk or posedge clear) if (clear) q <= 0; else q <= d;
endmodule

//>> because the delay set states neither setup nor hold
module plain(input clk, input d, output reg q);
  reg a;
  always @(posedge clk) a <= d;
  always @(posedge clk) q <= ~a;  //> q quiet
endmodule

//>> because a shift register hands on data, not clocks
module shift(input clk, input d, output reg [3:0] q);
  always @(posedge clk) q <= {q[2:0], d};  //> q quiet
endmodule

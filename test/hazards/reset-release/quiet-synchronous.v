//>> because a reset that is sampled like any data ends at an edge, whenever the port moves
module synchronous(input clk, input rst, input d, output reg q);  //> rst quiet
  always @(posedge clk) if (rst) q <= 0; else q <= d;
endmodule

//>> because a reset that is in the edge list and is never tested leaves two clocks to choose from (IEEE 1364.1)
module forgot_test(input clk, input rst, input d, output reg q);
  always @(posedge clk or posedge rst)
    q <= d;  //> q finding unsupported warning, no register
endmodule

//>> because a reset tested high behind its falling edge is no flip-flop (IEEE 1364.1)
module wrong_level(input clk, input rst_n, input d, output reg q);
  always @(posedge clk or negedge rst_n)
    if (rst_n) q <= 1'b0;  //> rst_n finding unsupported warning
    else q <= d;
endmodule

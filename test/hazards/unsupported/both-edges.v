//>> because no flip-flop has both edges of one clock: no register is guessed (IEEE 1364.1)
module both(input clk, input d, output reg q);
  always @(posedge clk or negedge clk) q <= d;  //> clk#2 finding unsupported warning | q no register
endmodule

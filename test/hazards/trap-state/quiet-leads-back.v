//>> because a 1 comes in when the lower stages are empty, so that every value leads into the ring
module leads_back(input clk, input rst, output reg [3:0] turn);
  always @(posedge clk) turn <= rst ? 4'b0001 : {turn[2:0], turn[2:0] == 3'd0};  //> turn quiet, counts ring 4
endmodule

//>> because two requests made at one edge may be seen in either order
module requests(input clk_a, clk_b, input [1:0] ask, output reg [1:0] turn);
  reg left = 0, right = 0;
  reg left_1 = 0, left_2 = 0, right_1 = 0, right_2 = 0;
  initial turn = 0;
  always @(posedge clk_a) begin
    left <= ask[0];
    right <= ask[1];
  end
  always @(posedge clk_b) begin
    left_1 <= left;    //> left_1 crossing protected two-flop
    left_2 <= left_1;
    right_1 <= right;  //> right_1 crossing protected two-flop
    right_2 <= right_1;
    turn <= left_2 ? 2'd1 : right_2 ? 2'd2 : 2'd0;  //> turn finding rejoined-crossing warning
  end
endmodule

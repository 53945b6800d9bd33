//>> because two flip-flops for each bit do not help a binary count: its bits may arrive in different periods
module binary(input clk_a, clk_b, rst, step, output reg [2:0] q);
  reg [2:0] count, first;
  always @(posedge clk_a) if (rst) count <= 0; else if (step) count <= count + 1;
  always @(posedge clk_b) begin
    first <= count;  //> first finding bus-crossing error, crossing bare two-flop
    q <= first;
  end
endmodule

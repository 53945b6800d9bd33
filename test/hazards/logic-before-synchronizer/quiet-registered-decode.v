//>> because the decode is registered by its own clock before it crosses
module registered(input clk_a, clk_b, output reg q);
  reg [2:0] n = 0;
  reg hit = 0, first = 0;
  initial q = 0;
  always @(posedge clk_a) begin
    n <= n + 1;
    hit <= n == 3'd3;
  end
  always @(posedge clk_b) begin
    first <= hit;  //> first finding short-pulse-crossing possible
    q <= first;
  end
endmodule

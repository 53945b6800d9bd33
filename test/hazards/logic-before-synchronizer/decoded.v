//>> because what a decode passes on its way may be caught by the first flip-flop and brought over as if it were meant
module decoded(input clk_a, clk_b, output reg q);
  reg [2:0] n = 0;
  reg first = 0;
  initial q = 0;
  always @(posedge clk_a) n <= n + 1;
  always @(posedge clk_b) begin
    first <= n == 3'd3;  //> first finding logic-before-synchronizer warning, crossing bare two-flop | n finding decoded-glitch
    q <= first;
  end
endmodule

//>> because a bus of which only one bit crosses is none
module one_bit(input clk_a, clk_b, input [3:0] d, output reg q);
  reg [3:0] held = 0;
  reg first = 0;
  initial q = 0;
  always @(posedge clk_a) held <= d;
  always @(posedge clk_b) begin
    first <= held[2];  //> first quiet, crossing protected two-flop
    q <= first;
  end
endmodule

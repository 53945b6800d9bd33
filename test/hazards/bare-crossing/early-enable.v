//>> because an enable that one flip-flop brought over is not settled when it decides
module hasty(input clk_a, clk_b, write, input [3:0] d, output reg [3:0] q);
  reg [3:0] held;
  reg flip, first, last;
  initial {held, flip, first, last, q} = 0;
  always @(posedge clk_a) if (write) begin held <= d; flip <= ~flip; end
  always @(posedge clk_b) begin
    first <= flip;  //> first finding bare-crossing
    last <= first;
    if (first ^ last) q <= held;  //> q finding bus-crossing
  end
endmodule

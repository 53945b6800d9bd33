//>> because a state of two bits brought over bit by bit is one that may never have been
module state_bits(input clk_a, clk_b, output reg hit);
  reg [1:0] state = 0;
  reg low_1 = 0, low_2 = 0, high_1 = 0, high_2 = 0;
  initial hit = 0;
  always @(posedge clk_a) state <= state + 1;
  always @(posedge clk_b) begin
    low_1 <= state[0];
    low_2 <= low_1;
    high_1 <= state[1];
    high_2 <= high_1;
    hit <= low_2 & high_2;  //> hit finding rejoined-crossing
  end
endmodule

//>> because the two bits never change at one edge
module gray_pair(input clk_a, clk_b, output reg hit);
  reg low = 0, high = 0;
  reg low_1 = 0, low_2 = 0, high_1 = 0, high_2 = 0;
  initial hit = 0;
  always @(posedge clk_a) begin
    low <= ~high;
    high <= low;
  end
  always @(posedge clk_b) begin
    low_1 <= low;
    low_2 <= low_1;
    high_1 <= high;
    high_2 <= high_1;
    hit <= low_2 & high_2;  //> hit quiet
  end
endmodule

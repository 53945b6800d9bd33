//>> because one reader goes through two flip-flops and the other does not
module button_twice(input clk, button, output reg lit, output reg [3:0] presses);  //> button finding raw-input information
  reg first = 0, second = 0;
  initial {lit, presses} = 0;
  always @(posedge clk) begin
    first <= button;
    second <= first;
    lit <= second;
    if (button) presses <= presses + 1;
  end
endmodule

//>> because an edge detector's pulse is one period of its clock long, whatever it looks at
module knock(input clk_a, clk_b, door, output reg seen);
  reg door_1 = 0, door_2 = 0, pulse = 0, first = 0;
  initial seen = 0;
  always @(posedge clk_a) begin
    door_1 <= door;
    door_2 <= door_1;
    pulse <= door_1 & ~door_2;
  end
  always @(posedge clk_b) begin
    first <= pulse;  //> first finding short-pulse-crossing possible warning
    seen <= first;
  end
endmodule

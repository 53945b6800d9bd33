//>> because the level of the clock is part of what its own edge samples: before or after the rise, nobody says (rule 37)
module in_logic(input clk, input d, output reg q);
  always @(posedge clk) q <= d & clk;  //> q finding clock-as-data information
endmodule

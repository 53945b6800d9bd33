//>> because a clock that becomes known may have risen or not, and nothing happens at time 0 (rule 16)
//>> start x
module perhaps(input clk, output reg divided, output reg early, output reg late);
  initial {early, late} = 2'b10;
  always @(posedge clk) divided <= 1;  //> divided at 5000 x, at 15000 1
  always @(posedge divided) early <= 0;  //> early at 5000 1, at 15000 x | divided finding derived-clock
  always @(posedge divided) late <= 0;  //> late at 5000 0, at 15000 0
endmodule

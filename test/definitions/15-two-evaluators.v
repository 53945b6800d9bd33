//>> because an initial block takes the else branch of an unknown condition, as the standard says, where a register merges both branches (rule 15)
//>> start x
module evaluators(input clk, output reg told, output reg [1:0] merged);  //> merged finding unknown-start
  reg unknown;  //> unknown finding unknown-start, start x
  initial if (unknown) told = 1; else told = 0;
  always @(posedge clk) told <= told;  //> told start 0, start-from text
  always @(posedge clk) unknown <= unknown;
  always @(posedge clk) if (unknown) merged <= 2'b11; else merged <= 2'b10;  //> merged at 15000 1x
endmodule

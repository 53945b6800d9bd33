//>> because a sum made after the rise is wanted at the fall already: half a period (rule 38)
module adder(input clk, input [7:0] d, output reg [7:0] total);
  reg [7:0] a;
  initial {a, total} = 0;
  always @(posedge clk) a <= d;
  always @(negedge clk) total <= total + a;  //> total finding opposite-edges information
endmodule

//>> because logic between registers on one edge has the whole period, here of the falling edge
module same(input clk, input [7:0] d, output reg [7:0] total);
  reg [7:0] a;
  initial {a, total} = 0;
  always @(negedge clk) a <= d;
  always @(negedge clk) total <= total + a;  //> total quiet
endmodule

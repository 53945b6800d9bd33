//>> because with nothing between the two half a period is plenty (rule 38)
module direct(input clk, input [3:0] d, output reg [3:0] b);
  reg [3:0] a;
  always @(posedge clk) a <= d;
  always @(negedge clk) b <= ~a;  //> b quiet
endmodule

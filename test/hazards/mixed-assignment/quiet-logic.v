//>> because = in logic and <= in registers is the habit
module habit(input clk, input a, b, output reg q);
  reg n;
  always @* n = a ^ b;  //> n quiet
  always @(posedge clk) q <= n;
endmodule

//>> because a reader at the other edge comes half a period later
module half_apart(input clk, input d, output reg a, output reg b);
  always @(posedge clk) a = d;  //> a quiet
  always @(negedge clk) b <= a;
endmodule

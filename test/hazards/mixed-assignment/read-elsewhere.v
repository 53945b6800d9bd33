//>> because a blocking write is read by another process of the same clock: who comes first decides
module racing(input clk, input d, output reg a, b);
  always @(posedge clk) a = d;  //> a finding mixed-assignment
  always @(posedge clk) b <= a;
endmodule

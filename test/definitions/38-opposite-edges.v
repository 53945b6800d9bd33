//>> because a falling-edge register that samples a rising-edge one has half a period: no alarm (rule 38)
module half_period(input clk, input d, output reg a, output reg b);
  always @(posedge clk) a <= d;
  always @(negedge clk) b <= a;  //> b root clk falling, quiet
endmodule

//>> because a falling-edge register that samples a rising-edge one has half a period: enough with nothing between, told where logic is (rule 38)
module half_period(input clk, input d, output reg a, output reg b, output reg c);
  always @(posedge clk) a <= d;
  always @(negedge clk) b <= a;  //> b root clk falling, quiet
  always @(negedge clk) c <= a ^ c;  //> c root clk falling, finding opposite-edges information
  initial c = 0;
endmodule

//>> because the third product holds the output while s changes
module holding(input clk, d, a, b, s, output reg q);
  wire clear_n = (s & a) | (~s & b) | (a & b);  //> clear_n quiet
  always @(posedge clk or negedge clear_n)
    if (!clear_n) q <= 0;
    else q <= d;
endmodule

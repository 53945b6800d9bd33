//>> because a sum of products with a reachable change of one input, at an end that a pulse can hurt, is told with the missing term (rule 26)
module sums(input clk, d, a, b, s, output reg q, r, output y);
  wire clear_n = (s & a) | (~s & b);  //> s finding structural-hazard possible information
  always @(posedge clk or negedge clear_n)
    if (!clear_n) q <= 0;
    else q <= d;
  assign y = (s & a) | (~s & b);  //> y quiet
  always @(posedge clk) r <= y;
endmodule

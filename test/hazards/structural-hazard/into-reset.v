//>> because with a and b at 1 neither product holds the output while s changes (static 1; Wakerly, Digital Design, section 4.4)
module into_reset(input clk, d, a, b, s, output reg q);
  wire clear_n = (s & a) | (~s & b);  //> s finding structural-hazard information
  always @(posedge clk or negedge clear_n)
    if (!clear_n) q <= 0;
    else q <= d;
endmodule

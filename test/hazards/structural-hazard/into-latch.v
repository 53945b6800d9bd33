//>> because primitives are gates as written
module into_latch(input d, a, b, s, output reg q);
  wire s_n, one, two, open;
  not (s_n, s);
  and (one, s, a), (two, s_n, b);
  or (open, one, two);  //> open finding structural-hazard
  always @* if (open) q = d;
endmodule

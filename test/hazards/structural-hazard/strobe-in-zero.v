//>> because a product of sums may rise for a moment where it should stay 0
//>> project {"strobes": ["write"]}
module strobe(input a, b, s, output write);
  assign write = (s | a) & (~s | b);  //> s finding structural-hazard
endmodule

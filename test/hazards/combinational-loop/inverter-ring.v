//>> because three inverters in a ring never rest
module oscillator(output y);
  wire a, b;
  not (a, y);  //> a finding combinational-loop error certain
  not (b, a);
  not (y, b);
endmodule

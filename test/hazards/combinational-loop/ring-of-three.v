//>> because an odd number of inversions oscillates, controls or not
module ring(input run, output y);
  wire a, b;
  nand g0(a, run, y);  //> a finding combinational-loop
  nand g1(b, run, a);
  nand g2(y, run, b);
endmodule

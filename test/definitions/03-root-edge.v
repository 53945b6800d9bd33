//>> because across a register output the polarity of q does not matter: only inversions before the pin turn the edge (rule 3)
module polarity(input clk, output reg a, b, c, e);
  initial {a, b, c, e} = 0;
  wire mixed = clk ^ a;  //> ^ finding gated-clock possible warning
  always @(posedge clk) a <= ~a;  //> a root clk rising
  always @(negedge a) b <= ~b;  //> b root clk rising | a finding ripple-chain
  always @(negedge clk) c <= ~c;  //> c root clk falling
  always @(posedge mixed) e <= ~e;  //> e root clk either
endmodule

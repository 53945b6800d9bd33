//>> because a domain is one root with everything of fixed known relation to it (rule 5)
//>> project {"resets": {}}
module domains(input clk, input other, input d, output reg a, b, c);  //> d finding raw-input
  reg half;
  initial half = 0;
  always @(posedge clk) half <= ~half;  //> half domain clk
  always @(posedge half) a <= d;  //> a domain clk | half finding derived-clock
  always @(negedge clk) b <= d;  //> b domain clk
  always @(posedge other) c <= d;  //> c domain other
endmodule

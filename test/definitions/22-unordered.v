//>> because bits that change at equal nominal times are unordered: a wrong value is possible, never silent, never certain (rule 22)
module unordered(input clk, output wire hit);
  reg a, b;
  initial {a, b} = 2'b01;
  always @(posedge clk) a <= ~a;
  always @(posedge clk) b <= ~b;
  assign hit = a & b;  //> & finding decoded-glitch possible hint
endmodule

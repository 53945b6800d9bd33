//>> because a NAND of three ports leaves the question open as well
module three(input a, input b, input c, input d, output reg q);
  wire g;
  nand (g, a, b, c);
  always @(posedge g) q <= d;  //> g finding unclear-clock
endmodule

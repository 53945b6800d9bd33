//>> because only ports come in through logic, and of them nobody knows the edge
module port_between(input clk, input [3:0] d, output reg a, output reg b);
  always @(posedge clk) a <= &d;
  always @(negedge clk) b <= |d;  //> b quiet
endmodule

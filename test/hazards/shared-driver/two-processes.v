//>> because two processes drive one register
module twice(input clk, input a, b, output reg q);
  always @(posedge clk) if (a) q <= 1;
  always @(posedge clk) if (b) q <= 0;  //> q finding shared-driver error
endmodule

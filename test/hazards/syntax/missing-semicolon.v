//>> because one missing semicolon loses no more than its statement
module first(input clk, input d, output reg q);
  always @(posedge clk) q <= d  //> d finding syntax error
endmodule
module second(input clk, input d, output reg r);
  always @(posedge clk) r <= d;  //> r quiet
endmodule

//>> because a declaration behind its first use in a process still declares it
module later(input clk, input d, output q);
  assign q = held;
  always @(posedge clk) held <= d;  //> held quiet
  reg held;
endmodule

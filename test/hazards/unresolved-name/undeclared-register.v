//>> because nothing declares what is assigned
module undeclared(input clk, input d, output q);
  always @(posedge clk) state <= d;  //> state finding unresolved-name error
  assign q = d;
endmodule

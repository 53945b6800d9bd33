//>> because an override names a parameter that the module does not have
module delay_line #(parameter DEPTH = 2) (input clk, input d, output q);
  reg [DEPTH-1:0] taps;
  assign q = taps[DEPTH-1];
  always @(posedge clk) taps <= {taps[DEPTH-2:0], d};
endmodule
module user(input clk, input d, output q);
  delay_line #(.DEPHT(4)) u(.clk(clk), .d(d), .q(q));  //> DEPHT finding unresolved-name error
endmodule

//>> because two flip-flops in a row in the receiving domain with nothing between are a synchronizer (rule 39)
module synchronized(input clk, input other, output reg out);
  reg flag, first;
  initial flag = 0;
  always @(posedge clk) flag <= ~flag;
  always @(posedge other) first <= flag;  //> first crossing protected two-flop, quiet
  always @(posedge other) out <= first;
endmodule

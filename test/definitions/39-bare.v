//>> because one flip-flop that other logic reads is no synchronizer (rule 39)
module bare(input clk, input other, input d, output reg out, output reg also);
  reg flag;
  initial flag = 0;
  always @(posedge clk) flag <= ~flag;
  always @(posedge other) out <= flag & d;  //> out finding bare-crossing warning
  always @(posedge other) also <= out;
endmodule

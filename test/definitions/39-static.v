//>> because registers stated static are accepted, per source register (rule 39)
//>> project {"static": ["mode"]}
module stated_static(input clk, input other, input d, output reg out);
  reg mode;
  always @(posedge clk) mode <= d;
  always @(posedge other) out <= mode;  //> out crossing accepted one-flop, quiet
endmodule

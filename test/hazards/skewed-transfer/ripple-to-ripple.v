//>> because the data of one stage and the clock of the same stage leave with one edge
module two_dividers(input clk, output reg seen);
  reg left, right;
  initial {left, right} = 0;
  always @(negedge clk) left <= ~left;
  always @(negedge clk) right <= left ^ right;
  always @(negedge left) seen <= right;  //> left finding derived-clock | seen finding skewed-transfer possible
endmodule

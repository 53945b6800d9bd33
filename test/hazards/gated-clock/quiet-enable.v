//>> because a data enable gates no clock
module data_enable(input clk, input en, input d, output reg q);
  always @(posedge clk) if (en) q <= d;  //> en quiet
endmodule

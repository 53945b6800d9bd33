//>> because the same division used as an enable clocks nothing
module enabled(input clk, input d, output reg q);
  reg half;
  initial half = 0;
  always @(posedge clk) half <= ~half;  //> half quiet
  always @(posedge clk) if (half) q <= d;  //> half#1 quiet
endmodule

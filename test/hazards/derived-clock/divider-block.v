//>> because a divider that clocks a block is one derived clock, told once
module slow_block(input clk, input d, output reg a, output reg b);
  reg half;
  initial half = 0;
  always @(posedge clk) half <= ~half;
  always @(posedge half) a <= d;  //> half finding derived-clock warning, kind derived, clock-ratio 2/1
  always @(posedge half) b <= a;  //> half quiet
endmodule

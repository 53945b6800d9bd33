//>> because the reset is let go by the clock that it resets
module own(input clk, start, output reg [3:0] n);
  reg clear = 1;
  initial n = 0;
  always @(posedge clk) clear <= ~start;
  always @(posedge clk or posedge clear)
    if (clear) n <= 0;  //> clear quiet
    else n <= n + 1;
endmodule

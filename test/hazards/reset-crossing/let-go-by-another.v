//>> because the sender lets go at its own edges, which may be the receiver's too
module let_go(input clk_a, clk_b, start, output reg [3:0] n);
  reg clear = 1;
  initial n = 0;
  always @(posedge clk_a) clear <= ~start;
  always @(posedge clk_b or posedge clear)
    if (clear) n <= 0;  //> clear finding reset-crossing warning
    else n <= n + 1;
endmodule

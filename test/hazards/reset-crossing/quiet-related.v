//>> because the two clocks are stated to have a fixed relation
//>> project {"related": [["clk_a", "clk_b"]]}
module related(input clk_a, clk_b, start, output reg [3:0] n);
  reg clear = 1;
  initial n = 0;
  always @(posedge clk_a) clear <= ~start;
  always @(posedge clk_b or posedge clear)
    if (clear) n <= 0;  //> clear quiet
    else n <= n + 1;
endmodule

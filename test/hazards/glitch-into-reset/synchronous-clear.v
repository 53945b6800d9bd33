//>> because a clear that is sampled has settled by then
module sampled_clear(input clk, input rst, output reg [3:0] n);
  reg [3:0] m;
  always @(posedge clk) if (rst) m <= 0; else m <= m + 1;
  wire clear = (m == 4'd11);  //> m quiet
  always @(posedge clk) if (rst | clear) n <= 0; else n <= n + 1;
endmodule

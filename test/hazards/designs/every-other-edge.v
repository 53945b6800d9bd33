//>> because every other edge by an enable
module shift_en(input clk, input en, input d, output reg [7:0] q);
  reg half = 0;
  always @(posedge clk) half <= ~half;
  always @(posedge clk) if (half & en) q <= {q[6:0], d};
endmodule

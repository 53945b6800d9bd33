//>> because a division by three from both edges, for a port
module div3(input clk, input rst, output out);
  reg [1:0] p, n;
  always @(posedge clk) if (rst) p <= 0; else if (p == 2) p <= 0; else p <= p + 1;
  always @(negedge clk) if (rst) n <= 0; else if (n == 2) n <= 0; else n <= n + 1;
  assign out = (p == 2) | (n == 2);
endmodule

//>> because a gate behind a latch that is open while the clock is low: sound, and said
module icg(input clk, input en, input test, output gclk);
  reg q;
  always @(clk or en or test) if (!clk) q = en | test;
  assign gclk = clk & q;  //> & finding gated-clock information
endmodule
module gated_block(input clk, input rst, input [7:0] d, output reg [7:0] q, output reg [3:0] n);
  reg en;
  always @(posedge clk) if (rst) begin en <= 0; n <= 0; end else begin n <= n + 1; en <= n[3]; end
  wire g;
  icg i(clk, en, 1'b0, g);
  always @(posedge g) q <= d;
endmodule

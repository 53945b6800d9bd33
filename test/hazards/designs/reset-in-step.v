//>> because a reset that comes at once and goes in step
module reset_sync(input clk, input rst_n_in, output rst_n);
  reg a, b;
  always @(posedge clk or negedge rst_n_in)
    if (!rst_n_in) {b, a} <= 2'b00;
    else {b, a} <= {a, 1'b1};
  assign rst_n = b;
endmodule
module reset_user(input clk, input rst_n_pin, input d, output reg q, output reg [3:0] n);
  wire rst_n;
  reset_sync rs(clk, rst_n_pin, rst_n);
  always @(posedge clk or negedge rst_n) if (!rst_n) begin q <= 0; n <= 0; end else begin q <= d; n <= n + 1; end
endmodule

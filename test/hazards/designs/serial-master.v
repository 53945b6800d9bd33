//>> because a machine that makes a clock for others as data has no derived clock of its own
module spi_master(input clk, input rst, input go, input [7:0] tx, output reg sclk, output mosi, output reg busy);
  reg [7:0] sh; reg [3:0] n;
  assign mosi = sh[7];
  always @(posedge clk)
    if (rst) begin sclk <= 0; busy <= 0; n <= 0; sh <= 0; end
    else if (!busy) begin if (go) begin busy <= 1; sh <= tx; n <= 0; end end
    else begin
      sclk <= ~sclk;
      if (sclk) begin sh <= {sh[6:0], 1'b0}; n <= n + 1; if (n == 7) busy <= 0; end
    end
endmodule

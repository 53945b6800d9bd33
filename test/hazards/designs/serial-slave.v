//>> because registers on both edges of a clock that comes from outside, with a tri-state answer
module spi_slave(input sclk, input cs_n, input mosi, output miso, output reg [7:0] rx);  //> cs_n finding reset-release
  reg [2:0] n; reg [7:0] sh; reg out;
  always @(posedge sclk or posedge cs_n)
    if (cs_n) n <= 0;
    else begin n <= n + 1; end
  always @(posedge sclk) if (!cs_n) sh <= {sh[6:0], mosi};
  always @(posedge sclk) if (!cs_n && n == 7) rx <= {sh[6:0], mosi};
  always @(negedge sclk or posedge cs_n) if (cs_n) out <= 0; else out <= rx[7 - n];  //> out#2 finding opposite-edges
  assign miso = cs_n ? 1'bz : out;
endmodule

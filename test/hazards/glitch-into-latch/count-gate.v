//>> because a comparison of a count pulses where several bits change, and the latch keeps what it met
module strobes(input clk, input rst, input [7:0] bus, output reg [7:0] first, second);
  reg [2:0] step;
  always @(posedge clk) if (rst) step <= 0; else step <= step + 1;
  wire take = (step == 3'd5);  //> step finding glitch-into-latch possible
  always_latch if (take) first = bus;
  always @(posedge clk) second <= first;
endmodule

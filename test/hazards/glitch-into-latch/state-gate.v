//>> because a latch that opens for a moment keeps what it met
module held(input clk, input rst, input [3:0] d, output reg [3:0] q);
  reg [1:0] state;
  always @(posedge clk) if (rst) state <= 0; else state <= state + 1;
  wire open = (state == 2'd3);  //> state finding glitch-into-latch possible warning
  always @* if (open) q = d;
endmodule

//>> because the state in which both products should hand over is never reached
module never(input clk, d, output reg q);
  reg [1:0] ring = 1;
  always @(posedge clk) ring <= {ring[0], ring[1]};  //> ring finding trap-state
  wire s = ring[0], a = ring[0] & ring[1], b = ring[0] & ring[1];
  wire open = (s & a) | (~s & b);  //> open quiet | s finding glitch-into-latch
  always @* if (open) q = d;
endmodule

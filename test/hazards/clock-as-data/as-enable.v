//>> because a gated clock asked for its level in a module of the same clock is data there
module user(input clk, input tick, input [3:0] d, output reg [3:0] q);
  always @(posedge clk) if (tick) q <= d;  //> q finding clock-as-data, finding opposite-edges
endmodule
module both(input clk, input en, input [3:0] d, output reg seen, output [3:0] q);
  reg open;
  always @(negedge clk) open <= en;
  wire tick = clk & open;  //> & finding gated-clock information
  always @(posedge tick) seen <= d[0];
  user u(clk, tick, d, q);
endmodule

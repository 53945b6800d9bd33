//>> because only the first two stages are read, and they have settled after 20 of the 25 ns
//>> project {"delays":"flops","delaySets":{"flops":{"clockToQ":{"first":10000}}},"clocks":{"clk":{"periodPs":25000}}}
module first_bits(input clk, output reg [1:0] seen, output [3:0] lamps);
  reg [3:0] q;
  initial {q, seen} = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];  //> [0] finding ripple-chain
  always @(negedge q[1]) q[2] <= ~q[2];
  always @(negedge q[2]) q[3] <= ~q[3];
  assign lamps = q;
  always @(negedge clk) seen <= q[1:0];  //> seen quiet
endmodule

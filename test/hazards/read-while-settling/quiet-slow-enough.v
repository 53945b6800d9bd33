//>> because 41 ns are enough for four flip-flops of 10 ns
//>> project {"delays":"flops","delaySets":{"flops":{"clockToQ":{"first":10000}}},"clocks":{"clk":{"periodPs":41000}}}
module slow_enough(input clk, output reg [3:0] seen);
  reg [3:0] q;
  initial {q, seen} = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];  //> [0] finding ripple-chain
  always @(negedge q[1]) q[2] <= ~q[2];
  always @(negedge q[2]) q[3] <= ~q[3];
  always @(negedge clk) seen <= q;  //> seen quiet
endmodule

//>> because four flip-flops of 10 ns settle in 40 ns, and the next edge of the clock comes after 39: from 7 to 8 it reads 0 (Floyd, Example 9-1, one step faster than it allows)
//>> project {"delays":"flops","delaySets":{"flops":{"clockToQ":{"first":10000}}},"clocks":{"clk":{"periodPs":39000}}}
module next_edge(input clk, output reg [3:0] seen);
  reg [3:0] q;
  initial {q, seen} = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];  //> [0] finding ripple-chain
  always @(negedge q[1]) q[2] <= ~q[2];
  always @(negedge q[2]) q[3] <= ~q[3];
  always @(negedge clk) seen <= q;  //> seen finding read-while-settling certain warning
endmodule

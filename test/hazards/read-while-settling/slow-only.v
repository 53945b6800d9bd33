//>> because only the slowest parts of the spread are too slow, for a chain that counts down and a sum behind it
//>> project {"delays":"loose","delaySets":{"loose":{"clockToQ":{"first":[3000,5000,9000]},"setup":1000,"logic":{"arithmetic":[2000,3000,4000]}}},"clocks":{"clk":{"periodPs":30000}}}
module slow_only(input clk, output reg [2:0] next);
  reg [2:0] q;
  initial {q, next} = 0;
  always @(posedge clk) q[0] <= ~q[0];
  always @(posedge q[0]) q[1] <= ~q[1];  //> [0] finding ripple-chain
  always @(posedge q[1]) q[2] <= ~q[2];
  always @(posedge clk) next <= q + 3'd3;  //> next finding read-while-settling possible warning
endmodule

//>> because the count is stopped two periods before it is read: 60 ns for the 40 that it takes
//>> project {"delays":"flops","delaySets":{"flops":{"clockToQ":{"first":10000}}},"clocks":{"clk":{"periodPs":30000}}}
module stopped(input clk, output reg [3:0] held);
  reg [3:0] q, slot;
  initial {q, slot, held} = 0;
  wire run = slot < 9;
  always @(posedge clk) slot <= slot + 1;
  always @(posedge clk) if (run) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];  //> [0] finding ripple-chain
  always @(negedge q[1]) q[2] <= ~q[2];
  always @(negedge q[2]) q[3] <= ~q[3];
  always @(posedge clk) if (slot == 12) held <= q;  //> held quiet
endmodule

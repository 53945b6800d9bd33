//>> because no number that is passed is 15, and 15 itself is reached by the first stage alone: the register takes the same either way
//>> project {"delays":"flops","delaySets":{"flops":{"clockToQ":{"first":10000}}},"clocks":{"clk":{"periodPs":30000}}}
module same_answer(input clk, output reg full);
  reg [3:0] q;
  initial {q, full} = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];  //> [0] finding ripple-chain
  always @(negedge q[1]) q[2] <= ~q[2];
  always @(negedge q[2]) q[3] <= ~q[3];
  always @(negedge clk) full <= &q;  //> full quiet
endmodule

//>> because nobody has said how fast the clock is: at the assumed 20 ns the last stage of the part comes after 27
//>> delays 74HC393
module assumed_clock(input clk, output reg [3:0] shown);
  reg [3:0] q;
  initial {q, shown} = 0;
  always @(negedge clk) q[0] <= ~q[0];
  always @(negedge q[0]) q[1] <= ~q[1];  //> [0] finding ripple-chain
  always @(negedge q[1]) q[2] <= ~q[2];
  always @(negedge q[2]) q[3] <= ~q[3];
  always @(negedge clk) shown <= q;  //> shown finding read-while-settling possible
endmodule

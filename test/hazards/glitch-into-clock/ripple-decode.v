//>> because a pulse on a clock is an edge
module stray(input clk, output reg done);
  reg [2:0] n;
  initial {n, done} = 0;
  always @(negedge clk)  n[0] <= ~n[0];
  always @(negedge n[0]) n[1] <= ~n[1];  //> n[0] finding ripple-chain warning
  always @(negedge n[1]) n[2] <= ~n[2];
  wire tick = (n == 3'd4);  //> n finding glitch-into-clock certain error
  always @(posedge tick) done <= ~done;  //> tick finding derived-clock warning
endmodule

//>> because a divider that clocks a block of registers is a derived clock, not a chain (rule 10)
module divided(input clk, input d, output reg [3:0] line);
  reg slow;
  initial slow = 0;
  always @(posedge clk) slow <= ~slow;
  always @(posedge slow) line <= {line[2:0], d};  //> slow finding derived-clock warning, kind derived, clock-ratio 2/1
endmodule

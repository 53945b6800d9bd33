//>> because a bus driver that is enabled for a moment meets the one that drives
module bus(input clk, input [3:0] value, inout [3:0] lines);
  reg a, b;
  initial {a, b} = 0;
  always @(negedge clk) a <= ~a;
  always @(negedge a)   b <= ~b;  //> a finding ripple-chain warning
  wire turn = b ^ a;  //> b finding decoded-glitch certain warning
  bufif1 (lines[0], value[0], turn);
  bufif1 (lines[1], value[1], turn);
endmodule

//>> because an unregistered decode to a plain port is a hint, one per block (rule 42)
module decoded(input clk, output wire two, output wire five);
  reg [2:0] n;
  initial n = 0;
  always @(posedge clk) n <= n + 1;
  assign two = (n == 2);  //> n finding decoded-glitch possible hint
  assign five = (n == 5);
endmodule

//>> because a port that is stated as a strobe is a dangerous end (rule 42)
//>> project {"strobes": ["write"]}
module strobed(input clk, output wire write);
  reg [2:0] n;
  initial n = 0;
  always @(posedge clk) n <= n + 1;
  assign write = (n == 2);  //> n finding decoded-glitch possible information
endmodule

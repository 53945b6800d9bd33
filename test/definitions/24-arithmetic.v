//>> because the structure of an adder is unknown: an output bit that depends on a moving input may pulse (rule 24)
module adder(input clk, output wire [2:0] sum);
  reg [2:0] n;
  initial n = 0;
  always @(posedge clk) n <= {n[1:0], ~n[2]};  //> n finding trap-state
  assign sum = n + 3'd1;  //> + finding decoded-glitch possible hint
endmodule

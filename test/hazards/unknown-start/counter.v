//>> because a count adds to what nobody knows
module counter(input clk, input en, output [3:0] y);
  reg [3:0] n;  //> n finding unknown-start
  assign y = n;
  always @(posedge clk) if (en) n <= n + 1;
endmodule

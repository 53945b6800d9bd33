//>> because ratio and duty are exact fractions relative to the root (rule 6); bit 1 of a count 0 1 2 is high one time in three
module thirds(input clk, output reg [1:0] n);
  initial n = 0;
  always @(posedge clk) n <= (n == 2) ? 0 : n + 1;  //> n counts up 3, reads 0-1-2
endmodule

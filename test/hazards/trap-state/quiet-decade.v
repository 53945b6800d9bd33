//>> because a decade counter goes from its unused values to 0, or counts on to it
module decade(input clk, output reg [3:0] n);
  initial n = 0;
  always @(posedge clk) n <= n >= 9 ? 4'd0 : n + 4'd1;  //> n quiet, counts up 10
endmodule

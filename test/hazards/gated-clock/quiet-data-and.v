//>> because a clock's name in a data gate of a block clocks nothing
module masks(input clk, input [3:0] d, input [3:0] mask, output reg [3:0] q);
  wire [3:0] kept = d & mask;  //> kept quiet
  always @(posedge clk) q <= kept;
endmodule

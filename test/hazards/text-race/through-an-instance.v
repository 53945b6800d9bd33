//>> because a port is a net too
module twice(input [3:0] a, output [4:0] y);
  assign y = {a, 1'b0};
endmodule
module through_instance(input clk, input [3:0] d, output reg [4:0] q);
  reg [3:0] held;
  wire [4:0] doubled;
  twice t(held, doubled);
  always @(posedge clk) begin
    held = d;
    q <= doubled;  //> doubled finding text-race
  end
endmodule

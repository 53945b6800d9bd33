//>> because logic between them follows no sooner and no later than a wire
module through_logic(input clk, input [1:0] step, output reg [3:0] n, output reg hit);
  wire full;
  assign full = n[3] & (n[2:0] == 3'd7);
  initial n = 0;
  always @(posedge clk) begin
    n = n + step;
    if (full) hit <= 1;  //> full finding text-race
    else hit <= 0;
  end
endmodule

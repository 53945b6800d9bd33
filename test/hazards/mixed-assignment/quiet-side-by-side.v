//>> because every variable keeps to one kind, side by side in one block
module two_kinds(input clk, input [3:0] a, input [3:0] b, output reg [3:0] low, output reg less);
  reg smaller;
  always @(posedge clk) begin
    smaller = a < b;  //> smaller quiet
    less <= smaller;  //> less quiet
    low <= smaller ? a : b;  //> low quiet
  end
endmodule

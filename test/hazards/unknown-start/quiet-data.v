//>> because data replaces what was unknown
module pipeline(input clk, input [7:0] d, output reg [7:0] a, b);
  always @(posedge clk) begin
    a <= d;  //> a quiet
    b <= a;
  end
endmodule

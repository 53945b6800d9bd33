//>> because names of a block, of a generate block and of a parameter list are declared where they are used
module scopes #(parameter W = 4) (input clk, input [W-1:0] d, output reg [W-1:0] q);
  localparam TOP = W - 1;
  genvar g;
  generate for (g = 0; g < W; g = g + 1) begin : lane
    wire inside = ~d[g];
  end endgenerate
  always @(posedge clk) begin : shift
    integer i;
    for (i = 0; i < TOP; i = i + 1) q[i] <= d[i + 1];  //> q quiet
    q[TOP] <= lane[0].inside;  //> q quiet
  end
endmodule

//>> because generate with genvar arithmetic is read
module lanes(input clk, input [3:0] d, output reg [3:0] q);
  genvar i;
  generate for (i = 0; i < 4; i = i + 1) begin : lane
    always @(posedge clk) q[i] <= d[3 - i];  //> q quiet
  end endgenerate
endmodule

//>> because the net follows bits that this process leaves alone
module other_bits(input clk, input [1:0] d, output reg [1:0] q, output reg r);
  wire p = q[1];
  always @(posedge clk) q[1] <= d[1];
  always @(posedge clk) begin
    q[0] = d[0];
    r <= p;  //> p quiet
  end
endmodule

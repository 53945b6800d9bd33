//>> because = in an initial block and loop counters is no second kind
module store(input clk, input we, input d, output reg [3:0] q);
  integer i;
  initial q = 4'd0;
  always @(posedge clk)
    if (we) begin
      for (i = 3; i > 0; i = i - 1) q[i] <= q[i - 1];  //> q quiet | i quiet
      q[0] <= d;  //> q quiet
    end
endmodule

//>> because a loop turns no more often than the limit allows
//>> limit unroll=4
module many_turns(input clk, input [7:0] d, output reg p);
  integer i;
  reg s;
  always @(posedge clk) begin
    s = 0;
    for (i = 0; i < 8; i = i + 1) s = s ^ d[i];  //> for finding limit-reached
    p <= s;
  end
endmodule

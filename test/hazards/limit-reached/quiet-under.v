//>> because a limit that is met exactly is not passed
//>> limit unroll=8
module enough(input clk, input [7:0] d, output reg p);
  integer i;
  reg s;
  always @(posedge clk) begin
    s = 0;
    for (i = 0; i < 8; i = i + 1) s = s ^ d[i];  //> s quiet
    p <= s;
  end
endmodule

//>> because a temporary that is written and read inside one block may be blocking
module temporary(input clk, input [3:0] d, output reg p);
  reg t;
  always @(posedge clk) begin
    t = ^d;  //> t quiet
    p <= t;
  end
endmodule

//>> because a tied select chooses once and for all
module chosen(input fast_clk, input slow_clk, input d, output reg q);
  localparam FAST = 1'b1;
  wire c = FAST ? fast_clk : slow_clk;  //> c quiet
  always @(posedge c) q <= d;  //> q root fast_clk rising
endmodule

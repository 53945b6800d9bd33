//>> because a toggling flip-flop that is only read is no clock
module read_only(input clk, output reg t, output reg [1:0] copy);
  initial t = 0;
  always @(posedge clk) t <= ~t;  //> t quiet
  always @(posedge clk) copy <= {copy[0], t};
endmodule

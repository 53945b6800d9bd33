//>> because a function that is constant or monotone over all orders passes no wrong value (rule 23)
module gray_read(input clk, output wire low);
  reg [1:0] g;
  initial g = 0;
  always @(posedge clk) g <= {g[0], ~g[1]};
  assign low = (g == 2'd0);  //> low quiet, form decoded
endmodule

//>> because the header of the old form is as good as the new one
module old(q, clk, d);
  output q; input clk; input d;
  reg q;
  always @(posedge clk) q <= d;  //> q quiet
endmodule

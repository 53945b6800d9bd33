//>> because a word clk in the name tells the clock where nothing else does, and that is said as assumed (rule 4)
module by_name(input pump_clk, input gate, input d, output reg q);
  wire both = pump_clk & gate;  //> & finding gated-clock possible
  always @(posedge both) q <= d;  //> q root pump_clk rising, domain pump_clk
endmodule

//>> because an inverter at the port, and a module that resets at the other level, change nothing in that
module stage(input clk, input reset, input d, output reg q);
  always @(posedge clk or posedge reset) if (reset) q <= 0; else q <= d;
endmodule
module behind(input clk, input clear_n, input d, output q);  //> clear_n finding reset-release
  wire m;
  stage u(clk, ~clear_n, d, m);
  stage v(clk, ~clear_n, m, q);
endmodule

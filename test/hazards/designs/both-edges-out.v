//>> because the choice follows the clock at once and shows the old bit until the new one is there
module ddr(input clk, input rst, input [1:0] d, output q);  //> rst finding reset-release
  reg r, f;
  always @(posedge clk or posedge rst) if (rst) r <= 0; else r <= d[0];
  always @(negedge clk or posedge rst) if (rst) f <= 0; else f <= d[1];
  assign q = clk ? r : f;  //> ? finding decoded-glitch certain hint
endmodule

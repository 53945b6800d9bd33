//>> because directives, strings with signs in them and comments inside statements are allowed
`timescale 1ns / 1ps
`define WIDTH 4
module directives(input clk, input [`WIDTH-1:0] d, output reg [`WIDTH-1:0] q);
`ifdef NEVER
  this is not read ;;; begin
`endif
  always @(posedge clk) q /* begin */ <= /* ; */ d;  //> q quiet
endmodule
`default_nettype wire

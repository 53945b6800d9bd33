//>> because attributes, strengths of the usual kind and timescales are read over
`timescale 1ns / 1ps
module plain(input clk, input d, output reg q);
  (* full_case *) always @(posedge clk) q <= d;  //> q quiet
endmodule

//>> because what is wrong in a package is said in the package, however many modules use it
module top(input clk, output logic [3:0] a, b);
  first u_first(.clk(clk), .q(a));
  second u_second(.clk(clk), .q(b));
endmodule
module first import p::*; (input clk, output logic [3:0] q); //> q finding unknown-start
  always @(posedge clk) q <= f(q);
endmodule
module second(input clk, output logic [3:0] q); //> q finding unknown-start
  always @(posedge clk) q <= p::f(q);
endmodule
//>> file p.sv
package p;
  function [3:0] f(input [3:0] x);
    f = x + step; //> step finding unresolved-name
  endfunction
endpackage

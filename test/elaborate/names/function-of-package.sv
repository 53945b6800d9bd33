//>> because a function of a package is followed where it is called (IEEE 1800-2017 26.3)
module counter import steps::*; (input clk, input [WIDTH-1:0] limit, output logic [WIDTH-1:0] q); //> q clock clk rising, stage 1
  initial q = 0;
  always @(posedge clk) q <= following(q, limit);
endmodule
//>> file steps.sv
package steps;
  import sizes::*;
  export sizes::WIDTH;
  function automatic logic [WIDTH-1:0] following(input logic [WIDTH-1:0] now, last);
    following = now == last ? 0 : now + ONE;
  endfunction
endpackage
//>> file sizes.sv
package sizes;
  localparam WIDTH = 4, ONE = 1;
endpackage

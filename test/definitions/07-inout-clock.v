//>> because an inout that is used on an edge is a root of its own, and undriven it reads its pull-up (rule 7)
module two_wire(inout scl, input d, output reg q);
  assign scl = 1'bz;
  always @(posedge scl) q <= d;  //> q clock scl rising, stage 1, domain scl | scl kind shared
endmodule

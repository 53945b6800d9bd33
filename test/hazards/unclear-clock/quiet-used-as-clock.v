//>> because a port that stands in an edge list is the clock
module settled(input a, input b, input d, output reg q, output reg r);
  wire g = a & b;  //> & finding gated-clock possible
  always @(posedge g) q <= d;  //> g quiet | q root a rising
  always @(posedge a) r <= d;
endmodule

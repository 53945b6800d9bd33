//>> because the bit that stands in an edge list is the clock of a gate, and a port that feeds an enable is a control (rule 4)
module operand(input a, input b, input d, output reg q, output reg r);
  wire both = a & b;  //> & finding gated-clock possible
  always @(posedge a) if (b) r <= d;  //> r clock a rising, enable b high
  always @(posedge both) q <= d;  //> q root a rising
endmodule
